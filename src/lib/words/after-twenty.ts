import { counted, lessOrMore } from '../format';
import type { Lasting, Outcome } from '../model';
import type { GoalWindow } from '../practice';

type Length = 'twenty' | 'forty';

/** The title of the drawing says what it shows. */
export function chartTitle(
  label: string,
  outcome: Outcome | null,
  window: Pick<GoalWindow, 'need'>,
  lasting: readonly Lasting[],
): string {
  const twenty = window.need.cases === 40 ? 'the next forty' : 'the next twenty';
  if (!outcome || outcome.kind === 'paused' || outcome.cannot) return `${label}: the baseline cases and ${twenty}.`;
  const judged = outcome.against ?? outcome.plain;
  const figure = judged ? lessOrMore(Math.exp(judged.estimate)) : '';
  const last = lasting[lasting.length - 1];
  const after = last
    ? {
        lasted: ', and it lasted',
        faded: ', and it faded',
        partly: ', and part of it lasted',
        'not-clear': ', and whether it lasted is not clear yet',
      }[last.kind]
    : '';
  switch (outcome.kind) {
    case 'shorter':
      return `${label}: about ${figure} time in ${twenty}${after}.`;
    case 'longer':
      return `${label}: about ${figure} time in ${twenty}.`;
    case 'steadier':
      return `${label}: steadier in ${twenty}.`;
    case 'all-round':
      return `${label}: shorter all round in ${twenty}.`;
    default:
      return `${label}: no clear change in ${twenty}.`;
  }
}

/** `bold`: a row of the drawing is the one the result rests on. */
export const effectReading = (bold: boolean): string =>
  [
    'Left of 100 is less than at the start, right of it more.',
    ...(bold ? ['The result rests on the row in bold.'] : []),
  ].join(' ');

export const DRAFT_NOT_COUNTED = 'Nothing is counted while the goal is a draft.';
export const DRAFT_GOAL =
  'This goal is a draft until it is agreed with your supervisor: off-patient drills only, and no case counts yet.';
export const PAUSED_GOAL = 'This goal is paused.';
export const NOT_ABOUT_TIME = 'This goal is not about time: no step time of its cases is judged.';
export const STORED_AFTER_REVIEW = 'Not stored yet: that happens once the review is written.';
export const NO_CASE_YET = 'No case of the window yet: it begins with the next new list.';
export const OWN_ACCOUNT = 'Your own account, from your notes after review.';
export const NO_CASE_LEFT = 'No case of the window is left.';
export const EVENTS_NOT_ASKED = 'Events were not asked in these cases, so none are marked.';
export const REVIEW_DUE = 'Since it was read, a safety review has become due.';

/** Shown for a goal whose step was retired after it was set: its window is unlikely to fill. */
export const retiredWords = (label: string): string =>
  `${label} is retired in Settings and no longer asked for, so only files can still bring times of it. Bring it back there, or move on; what is here stays.`;

/** An event or an answer added later closes the gate of a stored result again. `because`: in sentences. */
export const reopenedWords = (because: readonly string[]): string =>
  `Since this result was read: ${because.join(' ')} The numbers below stay as they were read.`;

/** Moments as they are read: "1 September 2026". */
export const firstLookRead = (when: string): string => `First look, at twenty, read on ${when}.`;
export const storedOn = (when: string): string => `Stored on ${when}, and shown as it was.`;
export const setOnWords = (set: string, agreed: string | null, baseline: number): string =>
  `Set on ${set}${agreed === null ? '' : `, agreed on ${agreed}`}, with ${counted(baseline, 'baseline case')}.`;

export const readyWords = (length: Length): string =>
  `The next ${length} are complete. The result is stored when you read it, once, and shown unchanged from then on.`;
export const shownEarlyWords = (when: string, length: Length): string =>
  `Shown because you asked on ${when}; this is noted with the goal. The result still comes at ${length}: no median, no limit and no verdict before that.`;
export const soFarTitle = (label: string): string => `${label}: the cases so far.`;

/** Where a checkpoint was done and where it was not: how long the step took. `look`: the checkpoint, a sentence. */
export const doneBesideWords = (
  look: string,
  found: { done: number; not: number },
  ratio: string,
  range: string,
): string =>
  `${look} Where this was done (${found.done} cases), the step took ${ratio} time than where it was not or only partly (${found.not} cases): ${range}. An association, not proof.`;
