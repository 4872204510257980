import { amongEyes } from '../audit';
import type { AimedEyes, Case, Lasting, ListRecord, Procedure, Baseline } from '../model';
import { caseArrays } from './case-arrays';
import { changeInput } from './judge-cases';
import { lastingOf } from './lasting';
import { notANumber, recordNotANumber } from './not-a-number';
import { casesWithIds } from './span';

export type LastingInput = {
  cases: readonly Case[];
  lists: readonly ListRecord[];
  procedure: Procedure;
  baseline: Pick<Baseline, 'caseIds' | 'selectionAllowance' | 'frozen'>;
  /** Full windows: the one the result came from, then the following windows. */
  windows: readonly (readonly string[])[];
  stepId: string;
  eyes?: AimedEyes | null;
  underGoal?: readonly string[];
};

/** Did a step that was found shorter stay so? One answer a following twenty; empty where there is none or nothing can be said. */
export function lastingFor(input: LastingInput): Lasting[] {
  if (recordNotANumber(input) ?? notANumber({ 'selection-allowance': input.baseline.selectionAllowance })) return [];
  const windows = input.windows.map((ids) => casesWithIds(input.cases, ids));
  const baseline = casesWithIds(input.cases, input.baseline.caseIds);
  const arrays = caseArrays(
    [...baseline, ...windows.flat()],
    amongEyes(input.procedure, input.eyes),
    input.lists,
    input.stepId,
    {
      frozen: input.baseline.frozen,
      underGoal: input.underGoal,
    },
  );
  return lastingOf(changeInput(arrays, windows), input.baseline.selectionAllowance);
}
