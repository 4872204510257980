import type { Goal, Lasting } from '../model';
import { inSentence, lastingWords } from '../words';
import { saidOfResult } from './after-words';
import { stageWords } from './goal-line';
import { stagedGoal } from './goal-stage';
import { procedureOf, type SurgeonRecord } from './record';
import { instantWords } from './when-words';

export type GoalLine = {
  id: string;
  href: string;
  procedureId: string;
  stepId: string;
  step: string;
  when: string;
  said: string;
  /** What it is and how far, for a goal that is not closed. */
  open: { is: string; far: string | null } | null;
  /** The cases its result is of, and the result with whether it lasted; `null` before there is one. */
  result: { cases: number; said: string } | null;
};

const STATE: Record<Goal['state'], string> = {
  draft: 'a draft, not agreed yet',
  running: 'running',
  paused: 'paused',
  closed: 'closed without a result',
};

const IS: Record<Goal['state'], string> = { draft: 'a draft', running: 'running', paused: 'paused', closed: 'closed' };

/** Every goal in one line, the one set last first: its step, when it was set, its result and whether that lasted. */
export function goalLines(record: SurgeonRecord, lastingOf: (goal: Goal) => readonly Lasting[]): GoalLine[] {
  return [...record.goals].reverse().map((goal) => {
    const label =
      procedureOf(record, goal.procedureId).steps.find(({ id }) => id === goal.stepId)?.label ?? goal.stepId;
    const results = record.results.filter((each) => each.goalId === goal.id);
    const latest = results.find((each) => each.look === 'second') ?? results[0];
    const last = latest ? lastingOf(goal).at(-1) : undefined;
    const result = latest && {
      cases: latest.windowIds.length,
      said: [
        inSentence(saidOfResult(latest.outcome, label).head.replace(/\.$/, '')),
        ...(last ? [inSentence(lastingWords(last, label).head)] : []),
      ].join('; '),
    };
    const staged = stagedGoal(goal, record);
    return {
      id: goal.id,
      href: `/after-twenty/${goal.id}`,
      procedureId: goal.procedureId,
      stepId: goal.stepId,
      step: label,
      when: `set on ${instantWords(goal.setAt)}`,
      said: result ? result.said : STATE[goal.state],
      open: staged && { is: IS[goal.state], far: staged.stage === 'paused' ? null : stageWords(staged) },
      result: result ?? null,
    };
  });
}
