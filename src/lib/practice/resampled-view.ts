import { summarise, type SortedSample, type Summary } from '../audit/sorted-sample';

/** Ways of ranking steps on which a step can have been picked. */
export type PickedOn = 'seconds' | 'spread' | 'reference';

const summary: Summary = { median: 0, p20: 0, logMad: 0 };

/**
 * The value by which a view ranks a step, in one resample: median less 20th percentile (seconds); spread (log);
 * median over the reference median. −∞ where the step is absent from the resample: last in rank.
 * @param counts how often each list was drawn
 */
export function viewValue(step: SortedSample, counts: Int32Array, view: PickedOn, referenceMedian: number): number {
  if (!summarise(step, counts, summary)) return -Infinity;
  switch (view) {
    case 'seconds':
      return summary.median - summary.p20;
    case 'spread':
      return summary.logMad;
    case 'reference':
      return referenceMedian > 0 ? summary.median / referenceMedian : -Infinity;
  }
}
