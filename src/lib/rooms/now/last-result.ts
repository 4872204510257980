import { inSentence } from '../../format';
import type { StoredResult, SurgeonRecord } from '../../model';
import { lastResultWords } from '../../words/last-result';
import { lastingWords } from '../../words';
import { reportedResult } from '../../words/reported-result';
import { instantWords } from '../forms/when-words';
import { goalStanding } from '../goals/goal-standing';

export type LastResult = { step: string; words: string; href: string };

/** When something was last read of it: the result, or whether it lasted. */
const readAt = ({ storedAt, lasted }: StoredResult): number => Date.parse(lasted?.at(-1)?.at ?? storedAt);

/** The result read last, of any goal, as it was read; `null` before there is one. */
export function lastResult(record: SurgeonRecord): LastResult | null {
  const latest = [...record.results].sort((a, b) => readAt(a) - readAt(b)).at(-1);
  const goal = latest && record.goals.find(({ id }) => id === latest.goalId);
  if (!latest || !goal) return null;
  const { step } = goalStanding(record, goal);
  const lasting = latest.lasted?.at(-1);
  return {
    step: step.label,
    href: `/after-twenty/${goal.id}`,
    words: lastResultWords({
      set: instantWords(goal.setAt),
      cases: latest.windowIds.length,
      result: inSentence(reportedResult(latest.outcome, step.label).head.replace(/\.$/, '')),
      lasted: lasting
        ? { nth: lasting.lasting.nth, said: inSentence(lastingWords(lasting.lasting, step.label).head) }
        : null,
      read: instantWords(lasting?.at ?? latest.storedAt),
    }),
  };
}
