import { isSerious, leavesOutAnEvent } from '../../safety';
import { leftOutReasons, type Case, type LeftOutReason, type SurgeonRecord } from '../../model';
import type { EraseRefusal, LeaveOutRefusal } from '../../words/may-not';
import { partsOfGoals } from './erase-words';
import { goalWindow } from '../goals/goal-window';

export const isLeftOutReason = (text: string): text is LeftOutReason => leftOutReasons.some((each) => each === text);

/**
 * Why this case may not be left out for this reason; `null` where it may. Not because of an event, and not once the
 * window it belongs to is full: choosing cases after the result is known would choose the result.
 */
export function leaveOutRefused(one: Case, reason: LeftOutReason, record: SurgeonRecord): LeaveOutRefusal | null {
  if (record.results.some(({ windowIds }) => windowIds.includes(one.id))) return 'result-stored';
  const goals = record.goals.filter(({ state, procedureId }) => state !== 'closed' && procedureId === one.procedureId);
  for (const goal of goals) {
    const window = goalWindow(record, goal);
    if (window.full && window.counted.includes(one.id)) return 'window-full';
  }
  for (const stepId of goals.length > 0 ? goals.map((goal) => goal.stepId) : [null]) {
    const refused = leavesOutAnEvent(one, reason, stepId);
    if (refused) return refused;
  }
  // "Another reason" beside an event could mean the event, and nobody could tell later.
  return reason === 'other' && (one.events?.length ?? 0) > 0 ? 'event-needs-a-reason' : null;
}

/**
 * Why this case may not be erased yet; `null` where it may. Erasing it would remove an event that nobody has looked at,
 * or one that closes the gate of a result still to be read.
 */
export function eraseRefused(one: Case, record: SurgeonRecord): EraseRefusal | null {
  const serious = (one.events ?? []).filter(isSerious);
  if (serious.some(({ reviewed }) => reviewed === null)) return { code: 'review-first', case: one.code };
  if (serious.length === 0) return null;
  const unread = record.goals.filter(
    ({ id, state }) => state !== 'closed' && record.results.every(({ goalId }) => goalId !== id),
  );
  const parts = partsOfGoals(one, { ...record, goals: unread });
  return parts.some(({ part }) => part === 'window') ? { code: 'result-first', case: one.code } : null;
}
