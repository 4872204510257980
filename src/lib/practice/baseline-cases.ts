import { amongEyes, eyeColumns, type EyeColumns } from '../audit';
import { columnsCarried } from '../statistics';
import { cannot, type Cannot } from './cannot';
import { caseArrays, type CaseArrays } from './case-arrays';
import { countedForGoal } from './counted-for-goal';
import type { StartGoalInput } from './start-goal-input';
import { baselineModel, trendOf, type BaselineModel } from './baseline-model';
import { practiceThresholds as set } from './thresholds';

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
  said: string[];
};

/** Is a change in time or spread to be judged at all? Then there must be enough baseline cases for it. */
export const isJudged = ({ measure }: Pick<StartGoalInput, 'measure'>) =>
  measure === 'time' || measure === 'steadiness';

/**
 * The latest 80 counted cases; the latest 40 where the step was already getting shorter against the rest (slope of d,
 * one-sided 90 %), or older cases would make the start look longer than it is.
 */
export function baselineCases(input: StartGoalInput): BaselineCases | Cannot {
  const { stepId, eyes } = input;
  const procedure = amongEyes(input.procedure, eyes);
  if (!procedure.steps.some((step) => step.id === stepId))
    return cannot('unknown-step', `${procedure.name} has no step "${stepId}".`);
  const within = input.cases.filter(
    (one) => one.sequence < (input.from ?? Infinity) && one.sequence >= (input.notBefore ?? -Infinity),
  );
  const counted = countedForGoal(within, procedure, stepId, set.startAtMost, eyes);
  const ordered = counted.every((one) => one.orderKnown);
  if (input.from !== undefined && !ordered)
    return cannot(
      'order-unknown',
      'The order of these cases is not known, so they cannot be divided into before and after. A goal can start from cases timed from now on.',
    );
  const missing = set.startAtLeast - counted.length;
  const sinceChange =
    input.notBefore === undefined ? '' : ' Counted from the change that an earlier goal on this step ended with.';
  if (isJudged(input) && missing > 0)
    return cannot(
      'few-cases',
      eyes
        ? `${counted.length === 1 ? 'One case counts' : `${counted.length} cases count`} for this step with ${eyes.label}; a goal on its time needs ${set.startAtLeast}. ${missing} more will do; until then only the checkpoints can be measured.${sinceChange}`
        : `${counted.length} cases count for this step; a goal needs ${set.startAtLeast}. ${missing} more will do.${sinceChange}`,
    );
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
    return cannot(
      'few-lists',
      `These cases come from ${table.listCount === 1 ? 'one list' : `${table.listCount} lists`}; at least ${set.listsEachPeriod} are needed, or one good or bad list could account for the whole change.`,
    );
  return {
    kind: 'cases',
    ...chosen,
    planned,
    falling,
    said: [
      ...planned.said,
      ...(shortened
        ? [`The step was already getting shorter, so only the latest ${set.startWhenFalling} cases are the baseline.`]
        : []),
      ...(ordered ? [] : ['The order of these cases is not known, so nothing over time was looked at.']),
      ...(listsKnown ? [] : ['Lists are not known, so neighbouring cases are treated as one list.']),
    ],
  };
}
