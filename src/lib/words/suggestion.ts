import type { Audit } from '../audit/types';
import { capital, counted, inSentence, listed, ofHundred, prose, timesAsLong } from '../format';
import type { Suggestion } from '../rules';
import { cameFirst } from './certainty';
import { eyesBeside, eyesWords } from './certain-eyes';
import { enoughWords, nothingWords } from './nothing-suggested';
import { othersCases } from './others-cases';
import { heldBackBy, moreCases, suggestionReasonWords } from './suggestion-reasons';
import { alsoWords, levelWords } from './suggestion-views';

/**
 * The suggestion. `sentences`: all of it in one run of text; `lede`: the one or two that stand under the head where its
 * reasons (`own`: the surgeon's own times) and `also` have a place of their own beside it.
 */
export type SuggestionWords = {
  head: string;
  sentences: string[];
  lede: string[];
  own: string | null;
  also: string | null;
};

export function suggestionWords(audit: Audit, suggestion: Suggestion): SuggestionWords {
  const said = withHeldBack(saidOf(audit, suggestion), audit, suggestion);
  const own = said.own ?? null;
  const also = said.also ?? null;
  const [first = '', ...rest] = said.sentences;
  const whole = [first, own, also && `Also worth a look: ${also}.`, ...rest].filter((each): each is string => !!each);
  return { head: said.head, sentences: whole, lede: [said.short ?? first, ...rest].filter(Boolean), own, also };
}

/** The reasons of a suggestion, a sentence each. */
export const suggestionReasons = ({ steps }: Pick<Audit, 'steps'>, { because }: Suggestion): string[] =>
  because.map((reason) =>
    suggestionReasonWords(reason, (id) => steps.find(({ stepId }) => stepId === id)?.label ?? id),
  );

type Said = { head: string; sentences: string[]; short?: string; own?: string | null; also?: string | null };

/** A step that stands out and is held back by an event is said beside what is suggested, not among its reasons alone. */
function withHeldBack(said: Said, audit: Audit, suggestion: Suggestion): Said {
  if (suggestion.kind === 'held-back') return said;
  const held = suggestion.because.filter((reason) => reason.code === 'held-back');
  return { ...said, sentences: [...said.sentences, ...suggestionReasons(audit, { ...suggestion, because: held })] };
}

function saidOf(audit: Audit, suggestion: Suggestion): Said {
  const label = (id: string) => inSentence(audit.steps.find((step) => step.stepId === id)?.label ?? id);
  const [firstId] = suggestion.steps;
  const step = audit.steps.find((each) => each.stepId === firstId);
  const also =
    [
      ...(suggestion.also.length > 0 ? [alsoWords(audit, suggestion, label)] : []),
      ...(suggestion.eyes && suggestion.kind !== 'eyes' ? [eyesBeside(suggestion.eyes, label)] : []),
    ].join('; ') || null;

  switch (suggestion.kind) {
    case 'not-enough':
      return { head: 'Not enough yet.', sentences: [enoughWords(audit.enough)] };
    case 'nothing': {
      const { head, sentence } = nothingWords(audit);
      return { head, sentences: [sentence], also };
    }
    case 'held-back': {
      const [first, ...more] = suggestion.because.filter((reason) => reason.code === 'held-back');
      return {
        head: `No step is suggested for time: ${first ? heldBackBy(first, label(first.stepId)) : 'an event was recorded'}.`,
        sentences: [
          [
            ...(first ? [moreCases(first)] : []),
            ...suggestionReasons(audit, { ...suggestion, because: more }),
            'A goal on checkpoints, or on another step, is open to you.',
          ].join(' '),
        ],
        also,
      };
    }
    case 'waiting':
      return {
        head: 'Most of the time that varies is waiting',
        sentences: [
          `(${[audit.waiting.reason, `${prose(audit.waiting.perCase)} a case`].filter(Boolean).join(', ')}). That is a matter for the team, and part of it is checking. No step is suggested.`,
        ],
      };
    // With its own reasons: an event that waits, events that came close together, or the monitor's signal.
    case 'safety':
      return {
        head: firstId ? `Safety first: ${label(firstId)}.` : 'Safety first.',
        sentences: [...suggestionReasons(audit, suggestion), ...noTimeUntil(suggestion, firstId ? label(firstId) : '')],
      };
    case 'kept':
      return {
        head: `${capital(firstId ? label(firstId) : 'This step')} varies most, and is not to be shortened.`,
        sentences: ['You can look at doing it the same way each time.'],
        also,
      };
    case 'eyes':
      return {
        head: `Suggested: ${firstId ? label(firstId) : ''} in certain eyes${suggestion.eyes ? ` (${suggestion.eyes.label})` : ''}.`,
        sentences: suggestion.eyes ? [eyesWords(suggestion.eyes, audit)] : [],
        also,
      };
    case 'level': {
      const shares = suggestion.steps.map((id) => {
        const first = audit.steps.find((each) => each.stepId === id)?.first;
        const share = suggestion.view && suggestion.view !== 'safety' ? first?.[suggestion.view] : null;
        return share ?? null;
      });
      const known = shares.every((share) => share !== null);
      const many = suggestion.steps.length === 2 ? 'Two' : 'Several';
      return {
        head: `${many} steps cannot be told apart: ${listed(suggestion.steps.map(label))}.`,
        sentences: [
          `${counted(audit.caseIds.length, 'case')} do not separate them${known ? ` (first in ${listed(shares.map((share) => String(ofHundred(share ?? 0))))} of 100)` : ''}. Choose the one you would rather ${audit.twoToWatch ? 'watch' : 'look at closely'}.`,
        ],
        also,
      };
    }
    case 'time':
    case 'steadiness':
      break; // one step, with its sentences below
  }
  const sentences: string[] = [];
  let short: string | undefined;
  if (step && suggestion.level && suggestion.view && suggestion.view !== 'safety') {
    sentences.push(levelWords(audit, step, suggestion.view, suggestion.level, label));
  } else if (step && suggestion.view === 'reference' && step.reference) {
    const { ratio, low, high } = timesAsLong(step.reference);
    short = `It takes you about ${ratio} times as long as in the reference set, more than any other step.`;
    sentences.push(
      `It takes you about ${ratio} times as long as in the reference set (${low} to ${high}; ${othersCases(step.reference)}), more than any other step; it ${cameFirst(step.first.reference ?? 0)}.`,
    );
  } else if (step && suggestion.view === 'spread') {
    short = 'It varies more than any other step of similar length.';
    sentences.push(`It varies more than any other step of similar length; it ${cameFirst(step.first.spread ?? 0)}.`);
  } else if (step && suggestion.view === 'seconds') {
    short = 'It holds the most seconds between your median and your 20th percentile.';
    sentences.push(
      `It holds the most seconds between your median and your 20th percentile${step.differenceSameEyes === null ? '' : ', among the same kind of eye'}; it ${cameFirst(step.first.seconds ?? 0)}.`,
    );
  }
  return {
    head: `Suggested: ${firstId ? label(firstId) : ''}.`,
    short,
    own:
      step?.median && step.p20
        ? `Its median is ${prose(step.median)}; one in five of your own cases took ${prose(step.p20)} or less.`
        : null,
    also,
    sentences: [...sentences, `Longer is not wrong: ${beforeYouChoose(audit)}.`],
  };
}

/** What to do with a suggestion, as the end of a sentence. Of times noted by hand there is nothing to watch. */
export const beforeYouChoose = ({ twoToWatch }: Pick<Audit, 'twoToWatch'>): string =>
  twoToWatch
    ? 'watch two recordings before you choose'
    : 'noted by hand, these cases have no recordings to watch, so think two of them through before you choose';

/** What holds while safety comes first: of this step alone, and only as long as it does. */
function noTimeUntil({ because }: Suggestion, step: string): string[] {
  const has = (code: Suggestion['because'][number]['code']) => because.some((reason) => reason.code === code);
  const none = `${step} has no time in any plan`;
  if (has('serious-unreviewed')) return [`Until the review is written, ${none}.`];
  if (has('serious-tied'))
    return [`As long as two or more of them lie in the last 100 answered cases, ${none}; other steps have.`];
  return has('monitor') ? ['Until its review is written, no change in time is called a result.'] : [];
}
