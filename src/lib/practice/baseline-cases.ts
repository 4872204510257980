import { amongEyes, eyeColumns, type EyeColumns } from '../audit';
import type { EyeCaveat } from '../model';
import { columnsCarried } from '../statistics';
import { cannot, type Cannot, type CannotStart } from './cannot';
import { caseArrays, type CaseArrays } from './case-arrays';
import { countedForGoal } from './counted-for-goal';
import type { StartGoalInput } from './start-goal-input';
import { baselineModel, trendOf, type BaselineModel } from './baseline-model';
import { practiceThresholds as set } from './thresholds';

/** What should be known of the cases a goal starts from. */
export type StartCaveat =
  EyeCaveat | { code: 'already-shorter'; latest: number } | { code: 'order-unknown' | 'lists-unknown' };

export type BaselineCases = {
  kind: 'cases';
  arrays: CaseArrays;
  model: BaselineModel;
  /**
   * The columns the result will be fitted on: as many as baseline cases and planned window carry together. The first of
   * them are those of `arrays`, which are as many as the baseline cases carry alone.
   */
  planned: EyeColumns;
  /** d of the practised step, facts of the eye taken out. */
  difference: Float64Array;
  /** The step was already getting shorter. */
  falling: boolean;
  caveats: StartCaveat[];
};

/** Is a change in time or spread to be judged at all? Then there must be enough baseline cases for it. */
export const isJudged = ({ measure }: Pick<StartGoalInput, 'measure'>) =>
  measure === 'time' || measure === 'steadiness';

/**
 * The latest 80 counted cases; the latest 40 where the step was already getting shorter against the rest (slope of d,
 * one-sided 90 %), or older cases would make the start look longer than it is.
 */
export function baselineCases(input: StartGoalInput): BaselineCases | Cannot<CannotStart> {
  const { stepId, eyes } = input;
  const procedure = amongEyes(input.procedure, eyes);
  if (!procedure.steps.some((step) => step.id === stepId))
    return cannot({ code: 'unknown-step', procedure: procedure.name, step: stepId });
  const within = input.cases.filter(
    (one) => one.sequence < (input.from ?? Infinity) && one.sequence >= (input.notBefore ?? -Infinity),
  );
  const counted = countedForGoal(within, procedure, stepId, set.startAtMost, eyes);
  const ordered = counted.every((one) => one.orderKnown);
  if (input.from !== undefined && !ordered) return cannot({ code: 'order-unknown' });
  if (isJudged(input) && counted.length < set.startAtLeast)
    return cannot({
      code: 'few-cases',
      counted: counted.length,
      needed: set.startAtLeast,
      eyes: eyes?.label ?? null,
      since: input.notBefore !== undefined,
    });
  const from = (latest: number) => {
    const arrays = caseArrays(counted.slice(-latest), procedure, input.lists, stepId, { underGoal: input.underGoal });
    const model = baselineModel(arrays, arrays.othersOf);
    const difference = model.differences[arrays.stepIndex] ?? new Float64Array(arrays.list.length).fill(NaN);
    return { arrays, model, difference };
  };
  const all = from(counted.length);
  const falling = ordered && (trendOf(all.difference, all.arrays.columns, all.arrays.list)?.falling ?? false);
  const shortened = falling && counted.length > set.startWhenFalling;
  const chosen = shortened ? from(set.startWhenFalling) : all;
  const { table, listsKnown } = chosen.arrays;
  const together = table.cases.length + (input.windowLength ?? set.followingLength);
  const planned = eyeColumns(table, procedure, { maxColumns: columnsCarried(together) });
  if (isJudged(input) && listsKnown && table.listCount < set.listsEachPeriod)
    return cannot({ code: 'few-lists', lists: table.listCount, needed: set.listsEachPeriod });
  return {
    kind: 'cases',
    ...chosen,
    planned,
    falling,
    caveats: [
      ...planned.caveats,
      ...(shortened ? [{ code: 'already-shorter', latest: set.startWhenFalling } as const] : []),
      ...(ordered ? [] : [{ code: 'order-unknown' } as const]),
      ...(listsKnown ? [] : [{ code: 'lists-unknown' } as const]),
    ],
  };
}
