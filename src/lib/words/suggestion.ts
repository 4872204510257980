import type { Audit, Enough } from '../audit/types';
import { prose } from '../format';
import { cameFirst } from './result';
import { capital, counted, inSentence, listed, ofHundred, timesAsLong } from '../format';
import type { CertainEyes, StandingView, Suggestion } from '../rules';
import { othersCases } from './others-cases';
import { heldBackBy, moreCases, suggestionReasonWords } from './suggestion-reasons';

/** How many more cases and lists a suggestion needs. */
export function enoughWords(enough: Enough): string {
  const more = [
    ...(enough.moreCases > 0 ? [`${counted(enough.moreCases, 'more case')}`] : []),
    ...(enough.moreLists > 0 ? [`${counted(enough.moreLists, 'more list')}`] : []),
  ];
  const needs =
    enough.lists === null
      ? 'A suggestion needs 30 cases. Lists are not known, so neighbouring rows are treated as one list.'
      : 'A suggestion needs 20 from at least 4 lists.';
  const none =
    enough.cases === 0
      ? 'A case counts if at least one step you did yourself was timed, unless the case is left out. '
      : '';
  return `${counted(enough.cases, 'case')} ${enough.cases === 1 ? 'counts' : 'count'}. ${none}${needs} ${more.length ? `${capital(listed(more))} will do. ` : ''}Your times are shown as they are; please read nothing into their order.`;
}

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
        sentences: [
          ...suggestionReasons(audit, suggestion),
          'Until the review is written, every plan leaves time out.',
        ],
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

/** How much longer, in how many eyes; longer there is expected. */
function eyesWords(eyes: CertainEyes, { twoToWatch }: Pick<Audit, 'twoToWatch'>): string {
  const { ratio, low, high } = timesAsLong(eyes);
  return `There it takes about ${ratio} times as long (${low} to ${high}; ${eyes.withIt.n} of ${counted(eyes.n, 'case')}). Longer is expected in these eyes; ${twoToWatch ? 'two recordings will show whether it should be this much longer' : 'times noted by hand cannot show whether it should be this much longer'}.`;
}

function eyesBeside(eyes: CertainEyes, label: (id: string) => string): string {
  const { ratio, low, high } = timesAsLong(eyes);
  return `${label(eyes.stepId)} in certain eyes (${eyes.label}), where it takes about ${ratio} times as long (${low} to ${high}; ${eyes.withIt.n} of ${counted(eyes.n, 'case')})`;
}

/** One of several that cannot be told apart on a view, taken because it comes first on a second one as well. */
function levelWords(
  audit: Audit,
  step: Audit['steps'][number],
  view: StandingView,
  level: NonNullable<Suggestion['level']>,
  label: (id: string) => string,
): string {
  const share = (id: string) => audit.steps.find((each) => each.stepId === id)?.first[view] ?? 0;
  const shares = [step.stepId, ...level.with].map((id) => String(ofHundred(share(id))));
  return `On ${VIEW_NAME[view]} it cannot be told apart from ${listed(level.with.map(label))} (first in ${listed(shares)} of 100 resamples of your record); on ${VIEW_NAME[level.second]} it came first in ${ofHundred(step.first[level.second] ?? 0)}.`;
}

/** Why a step with enough cases has no difference: its times are all equal, or whole seconds are too coarse for it. */
const ALIKE: ReadonlySet<string> = new Set(['all-equal', 'whole-seconds']);

/** That nothing stands out is an answer; that nothing can be compared is another. */
function nothingWords({ steps }: Pick<Audit, 'steps'>): { head: string; sentence: string } {
  const timed = steps.filter(({ n }) => n > 0);
  if (timed.length === 1)
    return {
      head: 'Only one step is timed.',
      sentence: 'There is only one step to look at, so none can be compared with another. You can still choose it.',
    };
  const head = 'No step stands out.';
  if (timed.every(({ difference }) => !difference))
    return {
      head,
      sentence:
        'These times hardly vary, so nothing can be said about which step to look at. Were they rounded, or copied?',
    };
  const alike = timed.filter(({ differenceCannot: cannot }) => cannot && ALIKE.has(cannot.code));
  if (alike.length > 0 && timed.length - alike.length < 2)
    return {
      head,
      sentence: `The times of ${listed(alike.map(({ label }) => inSentence(label)))} are too similar to compare a step with them. Were they rounded, or copied? You can still choose one.`,
    };
  if (timed.every(({ first }) => first.seconds === null && first.spread === null && first.reference === null))
    return {
      head,
      sentence: 'No two steps were timed in enough cases to be compared with each other. You can still choose one.',
    };
  return {
    head,
    sentence:
      'Your steps vary about as much as each other. A month without a goal is a good answer. You can still choose one.',
  };
}

/** "nucleus removal, which holds the most seconds"; steps that cannot be told apart on one view are named together. */
function alsoWords(audit: Audit, { also, level, view: on }: Suggestion, label: (id: string) => string): string {
  const views = [...new Set(also.map(({ view }) => view))];
  return views
    .map((view) => {
      const ids = also.filter((each) => each.view === view).map(({ stepId }) => stepId);
      const steps = ids.map(label);
      if (level && view === on) return `${listed(steps)}, which cannot be told apart from it on ${VIEW_NAME[view]}`;
      return steps.length === 1 && firstOn(audit, view)?.stepId === ids[0]
        ? `${steps[0]}, which ${VIEW_SAYS[view]}`
        : `${listed(steps)}, which cannot be told apart on ${VIEW_NAME[view]}`;
    })
    .join('; ');
}

const VIEW_NAME: Record<StandingView, string> = {
  seconds: 'most seconds',
  spread: 'what varies most',
  reference: 'the view against the reference set',
};

const VIEW_SAYS: Record<StandingView, string> = {
  seconds: 'holds the most seconds',
  spread: 'varies most',
  reference: 'differs most from the reference set',
};

/**
 * The step the title of the Choose drawing names: first on this view as the record stands. Only steps that are ranked
 * on it count: an optional or very short step may vary more, and is not worth a look for that.
 */
export function firstOn(audit: Pick<Audit, 'steps'>, view: StandingView): Audit['steps'][number] | null {
  const score = (step: Audit['steps'][number]): number =>
    (view === 'seconds'
      ? (step.differenceSameEyes ?? step.difference)
      : view === 'spread'
        ? step.spread
        : step.reference?.ratio) ?? -Infinity;
  const ranked = audit.steps.filter((step) => step.first[view] !== null && score(step) > -Infinity);
  return ranked.reduce<Audit['steps'][number] | null>(
    (first, step) => (first === null || score(step) > score(first) ? step : first),
    null,
  );
}

/** The title of the Choose drawing for a view: it says the answer. */
export function viewTitle(audit: Pick<Audit, 'steps'>, view: StandingView): string {
  const first = firstOn(audit, view);
  if (!first) return 'Your steps, in the order of the operation.';
  return `${capital(inSentence(first.label))} ${VIEW_SAYS[view]}.`;
}
