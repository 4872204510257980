import { summarise, type SortedSample, type Summary } from '../audit/sorted-sample';

/** Ways of ranking steps on which a step can have been picked. */
export type PickedOn = 'seconds' | 'spread' | 'reference';

const summary: Summary = { usual: 0, oneInFive: 0, logMad: 0 };

/**
 * The value by which a view ranks a step, in one resample: usual less one in five (seconds); spread (log);
 * usual over the reference usual. −∞ where the step is absent from the resample: last in rank.
 * @param counts how often each list was drawn
 */
export function viewValue(step: SortedSample, counts: Int32Array, view: PickedOn, referenceUsual: number): number {
  if (!summarise(step, counts, summary)) return -Infinity;
  switch (view) {
    case 'seconds':
      return summary.usual - summary.oneInFive;
    case 'spread':
      return summary.logMad;
    case 'reference':
      return referenceUsual > 0 ? summary.usual / referenceUsual : -Infinity;
  }
}
