import type { ListRecord } from '../model';
import type { Work } from '../turns';
import { adjusting, type Adjusted } from './adjust-for-eye';
import { factIdOf } from './eye-coding';
import { patternsOf } from './patterns';
import type { EyeColumns, Pattern, StepTable } from './types';

/**
 * For which steps the difference is split into what goes with the eye and what is left among the same kind of eye:
 * where a fact of the eye shows for the step and its adjustment takes that fact out. Elsewhere it is left whole: six
 * facts that do not matter would split off a tenth or more of it in 43 of 100 steps at 48 cases.
 */
export function toldApart(
  stepIds: readonly string[],
  { fits, eye }: Pick<Adjusted, 'fits' | 'eye'>,
  patterns: readonly Pattern[],
): boolean[] {
  return stepIds.map((stepId, index) => {
    const taken = new Set(fits[index]?.used.map((column) => factIdOf(eye.names[column] ?? '')));
    return patterns.some(
      (pattern) => pattern.stepId === stepId && pattern.shown && pattern.factId !== null && taken.has(pattern.factId),
    );
  });
}

/** The same for a table that has not been looked at before. */
export function* toldApartOn(table: StepTable, lists: readonly ListRecord[], eye: EyeColumns): Work<boolean[]> {
  const fitted = yield* adjusting(table, eye);
  const { patterns } = yield* patternsOf({ table, fitted, lists });
  return toldApart(table.stepIds, fitted, patterns);
}
