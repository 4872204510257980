import { asChosen, stepSecondsOf, stepsOf } from '../audit';
import type { Case, Procedure, StoredResult } from '../model';
import { huberLocation, median } from '../statistics';
import { casesWithIds } from './span';

/**
 * The change of a step as recorded, so that a reader can count it in a sheet: medians in seconds. `withEyes`: what of it goes
 * with the eyes, log scale: the Huber location of ln seconds, window less baseline, less the plain effect adjusted for the
 * eye; `null` without that.
 */
export type RecordedChange = {
  baseline: number;
  window: number;
  nBaseline: number;
  nWindow: number;
  withEyes: number | null;
};

/** Of the cases of a result that are still in the record; `null` where no case of one of the two has the step. */
export function recordedChange(
  { baselineIds, windowIds, stepId, outcome }: Pick<StoredResult, 'baselineIds' | 'windowIds' | 'stepId' | 'outcome'>,
  cases: readonly Case[],
  procedure: Procedure,
): RecordedChange | null {
  const of = (ids: readonly string[]): number[] => {
    const own = casesWithIds(cases, ids);
    const choice = stepsOf(own, procedure, [stepId]).find((each) => each.stepId === stepId);
    return choice ? own.flatMap((one) => stepSecondsOf(asChosen(one, choice), choice.stepId) ?? []) : [];
  };
  const [before, after] = [of(baselineIds), of(windowIds)];
  if (before.length === 0 || after.length === 0) return null;
  const location = (seconds: readonly number[]) => huberLocation(seconds.map(Math.log)).location;
  return {
    baseline: median(before),
    window: median(after),
    nBaseline: before.length,
    nWindow: after.length,
    withEyes: outcome.plain ? location(after) - location(before) - outcome.plain.rawEstimate : null,
  };
}
