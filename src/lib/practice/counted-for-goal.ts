import { asChosen, hasEyes, inOrder, stepSecondsOf, stepsOf } from '../audit';
import type { AimedEyes, Case, Procedure } from '../model';
import { practiceThresholds as set } from './thresholds';

/**
 * Which cases count for a goal on a step: of the procedure, not left out, the step done by own hands, with at least
 * three other steps done by the surgeon. Where fewer other steps are timed at all (in at least half of the cases with
 * the step) that many are enough: the step alone can then be shown, and nothing is claimed against the rest. For a goal
 * aimed at certain eyes only those.
 * @param sample cases from which it is read which steps are timed, and whether parts of a step or the whole
 */
export function countingRule(
  sample: readonly Case[],
  procedure: Procedure,
  stepId: string,
  eyes?: AimedEyes | null,
): (one: Case) => boolean {
  const own = sample.filter((one) => mayCount(one, procedure));
  const choices = stepsOf(own, procedure, [stepId]);
  const practised = choices.find((choice) => choice.stepId === stepId);
  if (!practised) return () => false;
  const others = choices.filter((choice) => choice !== practised);
  const timed = (one: Case, choice: (typeof choices)[number]) =>
    stepSecondsOf(asChosen(one, choice), choice.stepId) !== null;
  const withStep = own.filter((one) => timed(one, practised));
  const common = others.filter((other) => 2 * withStep.filter((one) => timed(one, other)).length >= withStep.length);
  const needed = Math.min(set.otherSteps, common.length);
  return (one) => {
    if (!mayCount(one, procedure) || (eyes && !hasEyes(one, eyes)) || !timed(one, practised)) return false;
    let found = 0;
    return needed === 0 || others.some((other) => timed(one, other) && (found += 1) >= needed);
  };
}

const mayCount = (one: Case, procedure: Procedure) => one.procedureId === procedure.id && one.leftOut === null;

/** The latest cases of a record that count for a goal on a step, in order of time. */
export function countedForGoal(
  cases: readonly Case[],
  procedure: Procedure,
  stepId: string,
  latest = Infinity,
  eyes?: AimedEyes | null,
): Case[] {
  const ordered = inOrder(cases.filter((one) => one.procedureId === procedure.id));
  const counts = countingRule(ordered.slice(-set.countingSample), procedure, stepId, eyes);
  const found: Case[] = [];
  for (let at = ordered.length - 1; at >= 0 && found.length < latest; at -= 1) {
    const one = ordered[at];
    if (one && counts(one)) found.push(one);
  }
  return found.reverse();
}
