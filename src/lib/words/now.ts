import type { Enough } from '../audit';
import { capital, counted, inSentence } from '../format';
import { neededWords } from './nothing-suggested';

/** One sentence of state, and what belongs to it. `step`: as it stands in a sentence. */
export type NowWords = { head: string; rest: string };

export const NOTHING_HERE: NowWords = {
  head: 'Nothing here yet.',
  rest: 'Bring in times of at least 20 cases to see where to look.',
};

export const noTimesWords = (cases: number): NowWords => ({
  head: 'No times yet.',
  rest: `${capital(counted(cases, 'case'))} ${cases === 1 ? 'is' : 'are'} here without times. Times of at least 20 show where to look.`,
});

/** `event`: its kind in words, `of`: the case it is of; `more`: events that wait beside it. */
export function eventWaitsWords(event: string, stepLabel: string | null, of: string, more: number): NowWords {
  const where = stepLabel ? `, at ${inSentence(stepLabel)}` : '';
  return {
    head: `Safety first: ${more === 0 ? 'a serious event waits' : `${more + 1} serious events wait`} for your review`,
    rest: `(${event}${where}; ${of}${more > 0 ? `; ${more} more` : ''}). No change in time is called a result until ${more === 0 ? 'it' : 'each'} has one.`,
  };
}

export const CASES_HERE: NowWords = { head: 'Your cases are here.', rest: '' };

export const notEnoughWords = (enough: Enough): NowWords => ({
  head: 'Not enough yet.',
  rest: neededWords(enough),
});

export const MOSTLY_WAITING: NowWords = {
  head: 'Most of the time that varies is waiting.',
  rest: 'That is a matter for the team, and part of it is checking.',
};

/** `before`: what to do before choosing, as the end of a sentence. */
export const enoughToChooseWords = (before: string): NowWords => ({
  head: 'Your record has enough cases to choose one step to look at closely.',
  rest: `${capital(before)}.`,
});

export const eventAsksHead = (step: string): string => `The goal on ${step}: an event asks for a decision.`;

/** `reason`: of the decision to pause, as it was written. */
export const pausedGoalWords = (step: string, reason: string): NowWords => ({
  head: `The goal on ${step} is paused.`,
  rest:
    reason === ''
      ? 'Talk to your supervisor or clinical lead before your next list.'
      : `${capital(reason)}${/[.!?]$/.test(reason) ? '' : '.'}`,
});

export const draftGoalWords = (step: string): NowWords => ({
  head: `Your plan for ${step} waits for your supervisor.`,
  rest: 'Until it is agreed, it covers only drills off the patient.',
});

export const decidingWords = (step: string): NowWords => ({
  head: `The result on ${step} is in.`,
  rest: 'Decide what comes next: keep, change the checkpoints, or move on.',
});

/** The window is full: `need` cases. */
export const fullHead = (need: number): string =>
  `The next ${need === 20 ? 'twenty' : need === 40 ? 'forty' : `${need} cases`} are complete.`;
export const readyToReadWords = (step: string): string => `The result on ${step} is ready to be read.`;

/** `over`: ", over 3 of 4 lists". */
export const runningHead = (step: string, count: number, need: number, over: string): string =>
  `${capital(step)}: ${Math.min(count, need)} of ${need} counted${over}.`;
export const NOTHING_WAITS = 'Nothing waits for your review.';

/**
 * Without this the count would seem to stand still: by the day of its list a case came before the goal. `since`: the day
 * the goal was set, or its draft agreed.
 */
export function datedBeforeWords(cases: number, agreed: boolean, since: string): string {
  const day = `before the goal was ${agreed ? 'agreed' : 'set'} (${since})`;
  return cases === 1
    ? `1 case is dated ${day} and counts for neither period; if that is wrong, correct the date of its list.`
    : `${counted(cases, 'case')} are dated ${day} and count for neither period; if that is wrong, correct the dates of their lists.`;
}

/** `complete`: following twenties that are complete and not read, or waiting; else how many of one are counted. */
export const followingHead = (step: string, complete: number, countedSo: number): string =>
  complete > 0
    ? `${capital(step)}: ${complete === 1 ? 'a following twenty is' : `${complete} following twenties are`} complete.`
    : `${capital(step)}: ${countedSo} of the following twenty counted.`;
