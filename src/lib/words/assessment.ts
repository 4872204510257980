import type { Pattern } from '../audit';
import { counted, prose, timesAsLong } from '../format';
import type { CannotStart } from '../practice';
import { cannotStartWords } from './cannot-start';

/** Why a file tells nothing of a goal from one case on. */
export type NoResult =
  | { code: 'no-such-case'; case: string }
  | { code: 'no-such-eyes'; fact: string; level: string }
  | { code: 'order-unknown' | 'no-step' }
  | { code: 'cannot-start'; why: CannotStart };

export function noResultWords(why: NoResult): string {
  switch (why.code) {
    case 'no-such-case':
      return `No case of this file has the code "${why.case}".`;
    case 'no-such-eyes':
      return `This procedure has no eyes "${why.fact}=${why.level}" a goal could be aimed at.`;
    case 'order-unknown':
      return 'The order of the cases in time is not known.';
    case 'no-step':
      return 'The cases before it suggest no step.';
    case 'cannot-start':
      return cannotStartWords(why.why);
  }
}

export const NOTHING_TO_ASSESS = 'No case in this file can be assessed.';
export const PATTERNS_LEAD = 'Goes with a longer or a shorter time (not caused by):';
export const REFERENCE_LEAD =
  'Reference: about how many times as long as in the reference set, with its 95 % interval.';
export const AFTER_SURGERY = 'Use after surgery, never in theatre. A shorter time is not a better operation.';
export const ORDER_GUESSED =
  'Which way the rows run was guessed. Before and after rest on it: say it with --answer "order=oldest-first" or "order=newest-first".';

/** What the numbers below it are of; `lists`: `null` where they are not known. */
export const assessedWords = ({ cases, lists }: { cases: number; lists: number | null }): string =>
  `${counted(cases, 'case')}${lists === null ? ', lists not known' : `, ${counted(lists, 'list')}`}. Median and 20th percentile (p20) as recorded; ranks adjusted for the eye where facts are recorded.`;

export function patternWords(step: string, pattern: Pattern): string {
  const { ratio, low, high } = timesAsLong(pattern);
  return `${step}: ${pattern.label} (${pattern.nWith} cases, ${pattern.nWithout} without): about ${ratio} times as long (${low} to ${high})`;
}

/** @param perCase seconds */
export const waitingWords = (perCase: number): string => `Waiting: ${prose(perCase)} a case. Part of it is checking.`;

/** `far`: how far the window is, in a sentence. */
export const notFullWords = (far: string): string => `The window is not full: ${far}`;
export const noResultYetWords = (label: string, far: string): string =>
  `${label}: no result yet. ${far} One is said when they are full.`;

/** That a reference set was given and is too small to compare any step with. */
export const smallReferenceWords = (cases: number, least: { cases: number; lists: number }): string =>
  `The reference set holds ${counted(cases, 'case')}: a step is compared from ${least.cases} cases on, of at least ${least.lists} lists or surgeons.`;
