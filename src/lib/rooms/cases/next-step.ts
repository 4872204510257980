import type { SurgeonRecord } from '../../model';
import { counted } from '../../format';
import { auditThresholds } from '../../audit/thresholds';
import { waitingCases } from '../goals/waiting-for-review';
import { waitingEvents } from '../now/waiting-events';

export type NextStep = { words: string; href: string };

/** What comes next once something was stored: the event that waits, the review that waits, the steps, or more cases. */
export function nextStep(record: SurgeonRecord): NextStep {
  const events = waitingEvents(record);
  if (events[0])
    return {
      words: `${events.length === 1 ? 'One serious event waits' : `${events.length} serious events wait`} for your review`,
      href: events[0].href,
    };
  const waiting = waitingCases(record).length;
  if (waiting > 0)
    return {
      words: `${counted(waiting, 'case')} ${waiting === 1 ? 'waits' : 'wait'} for your review`,
      href: '/reflect',
    };
  const timed = record.cases.filter(({ stretches }) => stretches.length > 0).length;
  if (timed >= auditThresholds.enoughCases) return { words: 'See which step', href: '/choose' };
  return {
    words: `${counted(timed, 'case')} with times so far; a first look needs ${auditThresholds.enoughCases}. Enter another list`,
    href: '/cases/lists/new',
  };
}
