import type { Case, ListRecord, Procedure, Baseline } from '../model';
import { quantile } from '../statistics';
import { caseArrays } from './case-arrays';
import { casesWithIds } from './span';
import { practiceThresholds as set } from './thresholds';

export type ShortTimes = {
  /** Window cases under the starting 10th percentile, and of how many; adjusted for the eye. */
  short: number;
  of: number;
  caseIds: string[];
  /** More than twice the expected share: "look: was anything left out?" They enter the result as recorded. */
  ask: boolean;
};

/** Are there more very short times in the window than a tenth? `null` without a frozen model or window cases. */
export function shortTimes(input: {
  cases: readonly Case[];
  lists: readonly ListRecord[];
  procedure: Procedure;
  baseline: Pick<Baseline, 'caseIds' | 'frozen'>;
  windowIds: readonly string[];
  stepId: string;
}): ShortTimes | null {
  const { frozen } = input.baseline;
  const baseline = casesWithIds(input.cases, input.baseline.caseIds);
  const window = casesWithIds(input.cases, input.windowIds);
  if (!frozen || baseline.length === 0 || window.length === 0) return null;
  const arrays = caseArrays([...baseline, ...window], input.procedure, input.lists, input.stepId, { frozen });
  const inWindow = new Set(window.map((one) => one.id));
  const times = arrays.table.cases.flatMap((one, at) => {
    const eye = frozen.coefficients.reduce((sum, effect, index) => sum + effect * arrays.columns[index]![at]!, 0);
    const adjusted = arrays.y[arrays.stepIndex]![at]! - eye;
    return Number.isFinite(adjusted) ? [{ id: one.id, adjusted, later: inWindow.has(one.id) }] : [];
  });
  const before = times.filter((one) => !one.later).map((one) => one.adjusted);
  const later = times.filter((one) => one.later);
  if (before.length === 0 || later.length === 0) return null;
  const tenth = quantile(before, set.shortTimesBelow);
  const short = later.filter((one) => one.adjusted < tenth);
  return {
    short: short.length,
    of: later.length,
    caseIds: short.map((one) => one.id),
    ask: short.length > set.shortTimesTimes * set.shortTimesBelow * later.length,
  };
}
