import { isSerious, mayLeaveOut } from '../../safety';
import { leftOutReasons, type Case, type LeftOutReason, type SurgeonRecord } from '../../model';
import { partsOfGoals } from './erase-words';
import { goalWindow } from '../goals/goal-window';

export const isLeftOutReason = (text: string): text is LeftOutReason => leftOutReasons.some((each) => each === text);

/**
 * Why this case may not be left out for this reason; `null` where it may. Not because of an event, and not once the
 * window it belongs to is full: choosing cases after the result is known would choose the result.
 */
export function leaveOutRefused(one: Case, reason: LeftOutReason, record: SurgeonRecord): string | null {
  if (record.results.some(({ windowIds }) => windowIds.includes(one.id)))
    return 'This case belongs to a window whose result is stored. It can no longer be left out: the result stays as it was read.';
  const goals = record.goals.filter(({ state, procedureId }) => state !== 'closed' && procedureId === one.procedureId);
  for (const goal of goals) {
    const window = goalWindow(record, goal);
    if (window.full && window.counted.includes(one.id))
      return 'The window this case belongs to is full. It can no longer be left out before the result is read.';
  }
  for (const stepId of goals.length > 0 ? goals.map((goal) => goal.stepId) : [null]) {
    const may = mayLeaveOut(one, reason, stepId);
    if (!may.allowed) return may.because;
  }
  // "Another reason" beside an event could mean the event, and nobody could tell later.
  if (reason === 'other' && (one.events?.length ?? 0) > 0)
    return 'This case has an event, so it needs one of the named reasons: a case cannot be left out because of an event.';
  return null;
}

/**
 * Why this case may not be erased yet; `null` where it may. Erasing it would remove an event that nobody has looked at,
 * or one that closes the gate of a result still to be read.
 */
export function eraseRefused(one: Case, record: SurgeonRecord): string | null {
  const serious = (one.events ?? []).filter(isSerious);
  if (serious.some(({ reviewed }) => reviewed === null))
    return `A serious event of case ${one.code} waits for your review. Write the review first; then it can be erased. Nothing was erased.`;
  if (serious.length === 0) return null;
  const unread = record.goals.filter(
    ({ id, state }) => state !== 'closed' && record.results.every(({ goalId }) => goalId !== id),
  );
  const parts = partsOfGoals(one, { ...record, goals: unread });
  return parts.some(({ part }) => part === 'window')
    ? `Case ${one.code} holds a serious event of a window whose result has not been read: without it the result would leave an event out. Read the result first, or close the goal; then it can be erased. Nothing was erased.`
    : null;
}
