/** Why a case may not be left out. */
export type LeaveOutRefusal = 'result-stored' | 'window-full' | 'event-of-step' | 'event-needs-a-reason';

/** Why a case may not be erased yet; `case`: its code. */
export type EraseRefusal = { code: 'review-first' | 'result-first'; case: string };

export function leaveOutRefusedWords(refusal: LeaveOutRefusal): string {
  switch (refusal) {
    case 'result-stored':
      return 'This case belongs to a window whose result is stored. It can no longer be left out: the result stays as it was read.';
    case 'window-full':
      return 'The window this case belongs to is full. It can no longer be left out before the result is read.';
    case 'event-of-step':
      return 'The event of this case belongs to the step, or its step is not known: a case cannot be left out because of an event.';
    case 'event-needs-a-reason':
      return 'This case has an event, so it needs one of the named reasons: a case cannot be left out because of an event.';
  }
}

export const eraseRefusedWords = (refusal: EraseRefusal): string =>
  refusal.code === 'review-first'
    ? `A serious event of case ${refusal.case} waits for your review. Write the review first; then it can be erased. Nothing was erased.`
    : `Case ${refusal.case} holds a serious event of a window whose result has not been read: without it the result would leave an event out. Read the result first, or close the goal; then it can be erased. Nothing was erased.`;
