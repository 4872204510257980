import { capital, counted, inSentence, listed, ofHundred, prose } from '../format';
import type { StandingView, SuggestionReason } from '../rules';
import { againstReference, betweenWords } from './reason-numbers';

const ON: Record<StandingView, string> = {
  seconds: 'by seconds',
  spread: 'by spread',
  reference: 'against the reference set',
};

/** Why a step is suggested, or none, in one sentence. `labelOf`: the label of a step by its id. */
export function suggestionReasonWords(reason: SuggestionReason, labelOf: (stepId: string) => string): string {
  switch (reason.code) {
    case 'serious-unreviewed':
      return `${labelOf(reason.stepId)}: ${waiting(reason.numbers.events)} for review.`;
    case 'serious-tied':
      return `${labelOf(reason.stepId)}: ${counted(reason.numbers.events, 'serious event')} in the last 100 answered cases.`;
    case 'unreviewed-elsewhere':
      return `${waiting(reason.numbers.events, ' tied to no timed step')} for review.`;
    case 'monitor':
      return 'Serious events are more frequent than the line set beforehand.';
    case 'not-enough': {
      const { cases, moreCases, moreLists } = reason.numbers;
      const more = [
        ...(moreCases > 0 ? [counted(moreCases, 'more case')] : []),
        ...(moreLists > 0 ? [counted(moreLists, 'more list')] : []),
      ];
      return `${counted(cases, 'case')} ${cases === 1 ? 'counts' : 'count'}; ${listed(more)} will do for a suggestion.`;
    }
    case 'waiting': {
      const why = reason.waitingReason ? `, most of it ${inSentence(reason.waitingReason)}` : '';
      return `Waiting takes ${prose(reason.numbers.perCase)} a case${why}: more than the difference between median and 20th percentile at any step.`;
    }
    case 'held-back':
      return `${labelOf(reason.stepId)} is not suggested for time: ${heldBackBy(reason, inSentence(labelOf(reason.stepId)))}. ${moreCases(reason)}`;
    case 'first-too-seldom':
      return `${capital(ON[reason.view])} no step came first often enough: ${inSentence(labelOf(reason.stepId))} in ${ofHundred(reason.numbers.share)} of 100 resamples.`;
    case 'seconds': {
      const { seconds, range } = reason.numbers;
      const between = 'between median and 20th percentile';
      const aCase = `${prose(seconds)} a case`;
      const has = reason.alone ? `the most seconds ${between}: ${aCase}` : `${aCase} ${between}`;
      const same = reason.sameEyes ? ', among the same kind of eye' : '';
      const interval = range ? ` (${prose(range.low)} to ${prose(range.high)})` : '';
      return `${labelOf(reason.stepId)} has ${has}${same}${interval}.`;
    }
    case 'spread': {
      const { twoThirds } = reason.numbers;
      const more = reason.alone ? 'more than any other step of similar length' : 'much';
      return `${labelOf(reason.stepId)} varies ${more}${twoThirds ? `: ${betweenWords(twoThirds)}` : ''}.`;
    }
    case 'reference':
      return `${labelOf(reason.stepId)} takes ${againstReference(reason.numbers)}.`;
    case 'came-first':
      return `It came first in ${ofHundred(reason.numbers.share)} of 100 resamples of your ${reason.resampled}.`;
    case 'came-first-elsewhere':
      return `${capital(ON[reason.view])} ${inSentence(labelOf(reason.stepId))} came first in ${ofHundred(reason.numbers.share)} of 100.`;
  }
}

const waiting = (events: number, tied = ''): string =>
  `${counted(events, 'serious event')}${tied} ${events === 1 ? 'waits' : 'wait'}`;

type HeldBack = Extract<SuggestionReason, { code: 'held-back' }>;

/** The event, and how many cases lie after it. */
export function heldBackBy({ kind, numbers: { casesAgo } }: HeldBack, step: string): string {
  const when = casesAgo === 0 ? 'in the latest case' : `${counted(casesAgo, 'case')} ago`;
  return `an event was recorded at ${step}${kind ? ` (${inSentence(kind)})` : ''}, ${when}`;
}

/** For how long it holds the step back. */
export function moreCases({ numbers: { more } }: HeldBack): string {
  return `${capital(counted(more, 'more case'))} will have to pass.`;
}
