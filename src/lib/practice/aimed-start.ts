import { factIdOf } from '../audit/eye-coding';
import { sharedFactors } from '../audit/pattern-factors';
import type { Case } from '../model';
import type { Work } from '../turns';
import { baselineModel, type BaselineModel } from './baseline-model';
import { caseArrays, type CaseArrays } from './case-arrays';
import { countedForGoal } from './counted-for-goal';
import { allowingForEyes, type EyeGroupArrays } from './eyes-allowance';
import type { SelectionAllowance } from './selection-allowance';
import type { StartGoalInput } from './start-goal-input';
import { practiceThresholds as set } from './thresholds';

/** Every counted case from the first baseline case of an aimed goal on, whatever its eyes; the latest 80 without one. */
export function timeOfStart(input: StartGoalInput, baseline: readonly Case[]): Case[] {
  const first = baseline.length === 0 ? -Infinity : Math.min(...baseline.map(({ sequence }) => sequence));
  const from = Math.max(first, input.notBefore ?? -Infinity);
  const within = input.cases.filter((one) => one.sequence >= from && one.sequence < (input.from ?? Infinity));
  return countedForGoal(within, input.procedure, input.stepId, first === -Infinity ? set.startAtMost : Infinity);
}

/** The allowance for a pair of step and kind of eye picked among all of them in the time of the start. */
export function* allowanceForEyes(input: StartGoalInput, baseline: readonly Case[]): Work<SelectionAllowance> {
  const cases = timeOfStart(input, baseline);
  const arrays = caseArrays(cases, input.procedure, input.lists, input.stepId, { underGoal: input.underGoal });
  const model = baselineModel(arrays, arrays.othersOf);
  yield 0.1;
  const step = (index: number) => input.procedure.steps.find((one) => one.id === arrays.table.stepIds[index]);
  return yield* allowingForEyes({
    recorded: arrays.y,
    differences: model.differences,
    groups: groupsOf(arrays, model, input),
    candidates: [...arrays.y.keys()].filter((index) => !(step(index)?.notToShorten || step(index)?.retired)),
    list: arrays.list,
    seed: input.seed,
    resamples: input.resamples,
  });
}

/** Yes/no facts and levels as patterns group them, each with its own share left in the times. */
function groupsOf({ table, eye }: CaseArrays, model: BaselineModel, { lists }: StartGoalInput): EyeGroupArrays[] {
  return sharedFactors(table, lists).flatMap(({ factId, levels, group }) => {
    if (factId === null || !levels) return [];
    const own = eye.names.flatMap((name, column) => (factIdOf(name) === factId ? [column] : []));
    const log = model.adjusted.map((row, step) => {
      const facts = model.fits.get(step)?.facts ?? [];
      return row.map((value, at) =>
        own.reduce((sum, column) => sum + (facts[column] ?? 0) * (eye.columns[column]?.[at] ?? 0), value),
      );
    });
    return [{ group, log }];
  });
}
