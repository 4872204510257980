import { rankedDifference } from '../audit/step-point';
import { summarise, summariseLevel, type SortedSample, type Summary } from '../audit/sorted-sample';

/** Ways of ranking steps on which a step can have been picked. */
export type PickedOn = 'seconds' | 'spread' | 'reference';

/** One step's baseline times, seconds: adjusted for the eye, as recorded, and whether the two are told apart. */
export type RankedStep = { adjusted: SortedSample; recorded: SortedSample; apart: boolean };

const adjusted: Summary = { median: 0, p20: 0, logMad: 0 };
const recorded = { median: 0, p20: 0 };

/**
 * The value by which a view ranks a step, in one resample: median less 20th percentile (seconds), among the same kind
 * of eye where a fact of the eye shows for the step; spread (log); median over the reference median. −∞ where the step
 * is absent from the resample: last in rank.
 * @param counts how often each list was drawn
 */
export function viewValue(step: RankedStep, counts: Int32Array, view: PickedOn, referenceMedian: number): number {
  if (!summarise(step.adjusted, counts, adjusted) || !summariseLevel(step.recorded, counts, recorded)) return -Infinity;
  switch (view) {
    case 'seconds':
      return rankedDifference(adjusted, recorded, step.apart);
    case 'spread':
      return adjusted.logMad;
    case 'reference':
      return referenceMedian > 0 ? adjusted.median / referenceMedian : -Infinity;
  }
}
