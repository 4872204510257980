import type { Goal, Lasting } from '../model';
import { inSentence, lastingWords } from '../words';
import { saidOfResult } from './after-words';
import { procedureOf, type SurgeonRecord } from './record';
import { instantWords } from './when-words';

export type GoalLine = { id: string; href: string; step: string; when: string; said: string };

const STATE: Record<Goal['state'], string> = {
  draft: 'a draft, not agreed yet',
  running: 'running',
  paused: 'paused',
  closed: 'closed without a result',
};

/** Every goal in one line, the one set last first: its step, when it was set, its result and whether that lasted. */
export function goalLines(record: SurgeonRecord, lastingOf: (goal: Goal) => readonly Lasting[]): GoalLine[] {
  return [...record.goals].reverse().map((goal) => {
    const label =
      procedureOf(record, goal.procedureId).steps.find(({ id }) => id === goal.stepId)?.label ?? goal.stepId;
    const results = record.results.filter((each) => each.goalId === goal.id);
    const latest = results.find((each) => each.look === 'second') ?? results[0];
    const last = latest ? lastingOf(goal).at(-1) : undefined;
    return {
      id: goal.id,
      href: `/after-twenty/${goal.id}`,
      step: label,
      when: `set on ${instantWords(goal.setAt)}`,
      said: latest
        ? [
            inSentence(saidOfResult(latest.outcome, label).head.replace(/\.$/, '')),
            ...(last ? [inSentence(lastingWords(last, label).head)] : []),
          ].join('; ')
        : STATE[goal.state],
    };
  });
}
