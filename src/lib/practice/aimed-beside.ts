import { eyesEntered, hasEyes } from '../audit';
import type { AimedEyes, AimedOutcome, Case, Effect } from '../model';
import { caseArrays } from './case-arrays';
import { countingRule } from './counted-for-goal';
import { changeInput } from './judge-cases';
import { excessOf } from './judge-aimed';
import { judgeTime } from './judge-time';
import type { ResultInput } from './result-input';
import { spanOfCases } from './span';

/** What of an aimed goal stands beside its result: the share of such eyes, late changes of the fact, the other eyes. */
export type AimedBeside = Omit<AimedOutcome, 'withoutExcess'>;

/** @param baseline cases with such eyes; `window` likewise */
export function aimedBeside(
  input: ResultInput,
  eyes: AimedEyes,
  baseline: readonly Case[],
  window: readonly Case[],
): AimedBeside {
  const counts = countingRule(baseline, input.procedure, input.stepId);
  // The share is of cases in which the fact was entered: nothing is known of the others.
  const ofTime = (ids: readonly string[]) =>
    spanOfCases(input.cases, ids, input.procedure.id).filter((one) => counts(one) && eyesEntered(one, eyes));
  const before = ofTime(baseline.map(({ id }) => id));
  const after = ofTime(window.map(({ id }) => id));
  const share = (cases: readonly Case[]) => ({
    such: cases.filter((one) => hasEyes(one, eyes)).length,
    of: cases.length,
  });
  const [atStart, inWindow] = [share(before), share(after)];
  const others = (cases: readonly Case[]) => cases.filter((one) => !hasEyes(one, eyes));
  return {
    eyes,
    baseline: atStart,
    window: inWindow,
    excess: excessOf(atStart, inWindow),
    changedLate: [...baseline, ...window].filter(({ factChanges }) =>
      factChanges.some(({ factId }) => factId === eyes.fact),
    ).length,
    otherEyes: input.measure === 'safety' ? null : changeInOthers(input, others(before), others(after)),
  };
}

/** The step against the rest in the other eyes; `null` where they are too few to say. Enters no fit of the result. */
function changeInOthers(input: ResultInput, before: readonly Case[], after: readonly Case[]): Effect | null {
  if (before.length === 0 || after.length === 0) return null;
  const arrays = caseArrays([...before, ...after], input.procedure, input.lists, input.stepId, {
    underGoal: input.underGoal,
  });
  if (arrays.stepIndex < 0) return null;
  return judgeTime(changeInput(arrays, [after]), { selectionAllowance: 0, steer: null, look: 'first' }).against;
}
