import { counted, inSentence } from '../../format';
import type { GoalLine } from '../after-twenty/goal-lines';

/** A goal mentioned beside its step, with a link to all of it. */
export type ToldGoal = { id: string; stepId: string; href: string; sentence: string; open: boolean };

/** The goals of one procedure beside its steps, open ones first. `on`: what the step is called there. */
export function goalsBeside(
  lines: readonly GoalLine[],
  procedureId: string,
  on: (line: GoalLine) => string = ({ step }) => inSentence(step),
): ToldGoal[] {
  const told = lines
    .filter((line) => line.procedureId === procedureId)
    .map((line) => ({
      id: line.id,
      stepId: line.stepId,
      href: line.href,
      sentence: sentenceOf(line, on(line)),
      open: line.open !== null,
    }));
  return [...told.filter(({ open }) => open), ...told.filter(({ open }) => !open)];
}

/** The goals on one step, for its page. */
export const goalsOnStep = (lines: readonly GoalLine[], procedureId: string, stepId: string): ToldGoal[] =>
  goalsBeside(lines, procedureId, () => 'this step').filter((each) => each.stepId === stepId);

function sentenceOf({ when, said, open, result }: GoalLine, on: string): string {
  const came = result && `${counted(result.cases, 'case')}; ${result.said}`;
  if (open !== null)
    return `A goal on ${on} is ${open.is}, ${when}${open.far === null ? '' : `: ${open.far}`}.${came === null ? '' : ` Its result: ${came}.`}`;
  return `You had a goal on ${on}, ${when}: ${came ?? said}.`;
}
