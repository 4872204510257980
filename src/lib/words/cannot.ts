import type { CannotFit, CannotJudge, CannotSay, GivenNumber, NotANumber } from '../model';
import { counted } from '../format';

/** Why nothing can be said of a window; a sentence of an earlier version stays as it was read. */
export const cannotSayWords = (why: CannotSay): string =>
  why.code === 'as-read' ? why.sentence : cannotJudgeWords(why);

export function cannotJudgeWords(why: CannotJudge): string {
  switch (why.code) {
    case 'not-a-time-goal':
      return why.measure === 'checkpoints'
        ? 'This goal is about its checkpoints: what was done is the result, and no change in time is claimed.'
        : 'This goal is about safety: it has no time.';
    case 'few-cases':
      return 'There are too few cases in one of the periods.';
    case 'few-other-steps':
      return 'Fewer than three other steps are timed, so there is no rest of the operation to compare with.';
    case 'few-rest-cases':
      return `Three other steps are timed in only ${why.baseline} baseline cases and ${why.windows.join(', ')} of the window: too few to compare with the rest of the operation.`;
    case 'few-lists':
      return `One of the periods comes from ${listsWords(why.lists)} only: a good or bad list could account for the whole change. At least three are needed.`;
    case 'few-cases-to-vary':
      return 'There are too few cases in one of the periods to compare how much they vary.';
    case 'most-the-same':
      return 'Most of these times are the same, so how much they vary cannot be compared.';
    case 'hardly-vary':
      return 'These times hardly vary at all, so nothing can be compared.';
    default:
      return cannotFitWords(why);
  }
}

export function cannotFitWords(why: CannotFit): string {
  switch (why.code) {
    case 'too-few':
      return 'There are too few cases to compare.';
    case 'no-variation':
      return 'These times hardly vary, or only by whole seconds, so nothing can be compared.';
    case 'not-told-apart':
      return 'A fact of the eye changes exactly when the window begins: the two cannot be told apart.';
    case 'not-determined':
      return 'The cases do not determine the change.';
    case 'not-a-number':
      return notANumberWords(why);
  }
}

const GIVEN: Record<GivenNumber, string> = {
  'selection-allowance': 'allowance',
  'selection-allowance-spread': 'allowance for spread',
  steer: 'lower end of the expected range',
  'baseline-median': 'median of the baseline cases',
  'baseline-p20': '20th percentile of the baseline cases',
  adjustment: 'adjustment of the baseline cases',
  seed: 'seed',
  resamples: 'number of resamples',
  permutations: 'number of permutations',
  'serious-rate': 'rate of serious events',
  'cases-before': 'number of cases before the record',
  from: 'first case',
  'not-before': 'case to start from',
  'window-length': 'length of the window',
};

export function notANumberWords(why: NotANumber): string {
  switch (why.what) {
    case 'given':
      return `The ${GIVEN[why.given]} given is not a number, so nothing can be said.`;
    case 'case':
      return brokenWords(`In case ${why.case}`);
    case 'list':
      return brokenWords('In a list');
    case 'reference-set':
      return brokenWords('In a reference set');
    case 'fact':
      return 'A fact of the eye is not a number in some case.';
  }
}

const brokenWords = (where: string) => `${where} something given as a number is not one, so nothing can be said.`;

/** "one list", "2 lists". */
export const listsWords = (lists: number): string => (lists === 1 ? 'one list' : counted(lists, 'list'));

/** A goal without a time is answered by what was done; whether it was read by this version or an earlier one. */
export const isNotATimeGoal = (why: CannotSay): boolean =>
  (why.code === 'as-read' ? why.was : why.code) === 'not-a-time-goal';
