import type { Lasting, Outcome, ResultKind } from '../model';
import { prose } from '../format';
import { aimedWords } from './aimed';
import { cannotSayWords, isNotATimeGoal } from './cannot';
import { resultCaveatWords } from './caveats';
import { pauseWords } from './pauses';
import { capital, inSentence, lessOrMore, ofHundred, rangeOfRatios, timesInTen } from '../format';

export type ResultWords = {
  /** The bold first words: what the window shows. */
  head: string;
  sentences: readonly string[];
  doesNotSay: string;
  /** Added beside the result: prior trend, second look, cases left out, experience. */
  beside: readonly string[];
};

/** What the words need beside the outcome. */
export type ResultContext = {
  stepLabel: string;
  /** In how many of 100 records in which nothing changed *shorter* still appears: measured, not wished. */
  falsePerHundred: number;
  /** Reviewed or not, the event that paused it: "posterior capsule tear, cortex aspiration". */
  pausedBy: string | null;
};

export const RESULT_HEAD: Record<ResultKind, string> = {
  paused: 'Paused for safety review',
  shorter: 'Shorter, beyond the rest of the operation',
  'all-round': 'Shorter all round',
  'rest-longer': 'Kept while the rest took longer',
  steadier: 'Steadier',
  longer: 'Longer',
  'little-change': 'Little change',
  'cannot-tell': 'No clear change',
};

const DOES_NOT_SAY: Record<ResultKind, string> = {
  paused: 'that the goal caused it.',
  shorter: 'that the checkpoints did it, or that the operation is safer.',
  'all-round': 'that this step changed more than the others.',
  'rest-longer': 'that this step changed.',
  steadier: 'that steadier is safer, or why.',
  longer: 'that anything is wrong. Go back to two of these cases before you decide.',
  'little-change': 'that the checkpoints are useless, or that nothing was learned.',
  'cannot-tell': 'that the checkpoints are useless. What you did stands above, in your own account.',
};

/** The sentences of a result. Percentages are of time; a ratio of 0.82 reads "18 % less". */
export function resultWords(outcome: Outcome, context: ResultContext): ResultWords {
  const step = capital(inSentence(context.stepLabel));
  const judged = outcome.against ?? outcome.plain;
  const secondsChanged = (ratio: number) =>
    outcome.baselineMedian === null ? null : prose(Math.abs(outcome.baselineMedian * (1 - ratio)));
  const n = judged
    ? `${judged.nWindow} cases against ${judged.nBaseline} baseline cases${outcome.adjusted === false ? '' : ', adjusted for the eye'}.`
    : '';

  const sentences = ((): string[] => {
    if (outcome.cannot) return [cannotSayWords(outcome.cannot)];
    if (outcome.kind === 'paused')
      return outcome.paused.length > 0 ? outcome.paused.map(pauseWords) : ['The safety review comes first.'];
    if (outcome.kind === 'steadier')
      return [
        ...spreadSentence(outcome, step),
        ...rangesSentence(outcome),
        ...(outcome.plain && outcome.plain.low < 0 && outcome.plain.high > 0
          ? ['The time itself did not clearly change.']
          : []),
      ];
    if (outcome.measure === 'steadiness')
      return [...spreadSentence(outcome, step), 'This is not "no change".', ...rangesSentence(outcome)];
    if (!judged) return [];
    const [ratio, low, high] = [Math.exp(judged.estimate), Math.exp(judged.low), Math.exp(judged.high)];
    const changed = secondsChanged(ratio);
    const aCase = changed ? `; about ${changed} a case` : '';
    switch (outcome.kind) {
      case 'shorter':
        return [
          `${step} took about ${lessOrMore(ratio)} time than the rest of the same operations would lead you to expect (${rangeOfRatios(low, high)}${aCase}).`,
          n,
        ];
      case 'longer': {
        const [rawLow, rawHigh] = [Math.exp(judged.rawLow), Math.exp(judged.rawHigh)];
        const rawRatio = Math.exp(judged.rawEstimate);
        const more = secondsChanged(rawRatio);
        return [
          `${step} took about ${lessOrMore(rawRatio)} time than the rest of the same operations would lead you to expect (${rangeOfRatios(rawLow, rawHigh)}${more ? `; about ${more} a case` : ''}).`,
          'More care, a new technique or teaching can each do this.',
          n,
        ];
      }
      case 'all-round': {
        const plain = outcome.plain ?? judged;
        return [
          `${step} took about ${lessOrMore(Math.exp(plain.estimate))} time (${rangeOfRatios(Math.exp(plain.low), Math.exp(plain.high))}), and so did the rest of the operation.`,
          'Easier eyes, an easier list and growing experience all look like this.',
          n,
        ];
      }
      case 'rest-longer':
        return [
          outcome.rest
            ? `The rest of these operations took about ${lessOrMore(Math.exp(outcome.rest.estimate))} time (${rangeOfRatios(Math.exp(outcome.rest.low), Math.exp(outcome.rest.high))}); ${inSentence(context.stepLabel)} did not.`
            : `The rest of these operations took more time; ${inSentence(context.stepLabel)} did not.`,
          n,
        ];
      case 'little-change':
        return [
          `The likeliest figure is ${lessOrMore(ratio)} (${rangeOfRatios(low, high)}).`,
          'A change as large as you hoped for is unlikely in these twenty.',
          n,
        ];
      default:
        // Against the rest it is clearly longer, yet it stayed: the rest moved, and an interval without "no change" in it would mislead.
        if (judged.rawLow > 0 && outcome.rest && outcome.rest.estimate < 0)
          return [
            `The rest of these operations took about ${lessOrMore(Math.exp(outcome.rest.estimate))} time (${rangeOfRatios(Math.exp(outcome.rest.low), Math.exp(outcome.rest.high))}); ${inSentence(context.stepLabel)} stayed about as it was.`,
            n,
          ];
        return [
          `The likeliest figure is ${lessOrMore(ratio)}, but anything ${rangeWithFrom(low, high)} fits.`,
          outcome.powerForAFifth === null
            ? 'This is not "no change".'
            : `This is not "no change": had the step become a fifth shorter, these cases would have shown it ${timesInTen(outcome.powerForAFifth)}.`,
          n,
        ];
    }
  })();

  return {
    head: !outcome.cannot
      ? RESULT_HEAD[outcome.kind]
      : isNotATimeGoal(outcome.cannot)
        ? 'No time is judged'
        : 'Cannot tell yet',
    sentences: sentences.filter(Boolean),
    doesNotSay: [
      DOES_NOT_SAY[outcome.kind],
      ...(outcome.kind === 'shorter'
        ? [`When nothing has changed, this result still appears about ${context.falsePerHundred} times in 100.`]
        : []),
    ].join(' '),
    beside: besideWords(outcome),
  };
}

/** What a goal on steadiness was judged by: how much the step varies against the rest, not how long it takes. */
function spreadSentence({ spread, kind }: Outcome, step: string): string[] {
  if (!spread) return [];
  const [ratio, low, high] = [spread.estimate, spread.low, spread.high].map(Math.exp) as [number, number, number];
  const against = 'from case to case, against the rest of the same operations';
  return [
    kind === 'steadier'
      ? `${step} varied about ${lessOrMore(ratio)} ${against} (${rangeOfRatios(low, high)}).`
      : `How much ${inSentence(step)} varies ${against}: the likeliest figure is ${lessOrMore(ratio)}, but anything ${rangeWithFrom(low, high)} fits.`,
    `${spread.nWindow} cases against ${spread.nBaseline} baseline cases.`,
  ];
}

/**
 * The ranges as they were timed; they include the case mix too, so that they may widen where the step itself is
 * steadier.
 */
function rangesSentence({ rangeBaseline, rangeWindow, kind }: Outcome): string[] {
  if (!rangeBaseline || !rangeWindow) return [];
  const range = ([low, high]: readonly [number, number]) => `between ${prose(low)} and ${prose(high)}`;
  const narrower = rangeWindow[1] / rangeWindow[0] < rangeBaseline[1] / rangeBaseline[0];
  if (kind === 'steadier' && !narrower)
    return ['As they were timed, two thirds of cases do not lie closer together: the whole operation varied more.'];
  return [`Two thirds of cases now fall ${range(rangeWindow)}; before, ${range(rangeBaseline)}.`];
}

function rangeWithFrom(low: number, high: number): string {
  const words = rangeOfRatios(low, high);
  return words.startsWith('from') ? words : `from ${words}`;
}

function besideWords(outcome: Outcome): string[] {
  const beside: string[] = [];
  if (outcome.notes.includes('prior-trend') && outcome.priorTrend !== null)
    beside.push(
      `This was already under way: going on as before would have given about ${lessOrMore(Math.exp(outcome.priorTrend))}${outcome.priorTrendRange ? ` (${rangeOfRatios(Math.exp(outcome.priorTrendRange[0]), Math.exp(outcome.priorTrendRange[1]))})` : ''}.`,
    );
  for (const { label, effect } of outcome.neighbours ?? []) {
    const [ratio, low, high] = [effect.rawEstimate, effect.rawLow, effect.rawHigh].map(Math.exp) as [
      number,
      number,
      number,
    ];
    beside.push(
      `The step next to it, ${inSentence(label)}, took about ${lessOrMore(ratio)} time than its rest would lead you to expect (${rangeOfRatios(low, high)}). Does the clock between the two still stop where it used to? Time moved from one step into the next looks just like this.`,
    );
  }
  if (outcome.notes.includes('experience')) beside.push('Some of this comes with experience.');
  if (outcome.notes.includes('second-look'))
    beside.push('Second look, at forty. Because the first look came at twenty, this one is judged more strictly.');
  if (outcome.leftOutSeen > 0)
    beside.push(
      `${outcome.leftOutSeen === 1 ? 'One case was' : `${outcome.leftOutSeen} cases were`} left out after ${outcome.leftOutSeen === 1 ? 'its' : 'their'} times were seen.` +
        (outcome.kindWithLeftOut && outcome.kindWithLeftOut !== outcome.kind
          ? ` With them in, the result would be: ${RESULT_HEAD[outcome.kindWithLeftOut]}. It depends on the cases left out.`
          : ' With them in, the result is the same.'),
    );
  if (outcome.notes.includes('lists-unknown'))
    beside.push('Lists are not known, so neighbouring cases are treated as one list.');
  if (outcome.notes.includes('shared-hands'))
    beside.push('In some of these cases someone else did part of the operation; only your own steps count.');
  return [...beside, ...(outcome.aimed ? aimedWords(outcome.aimed) : []), ...outcome.caveats.map(resultCaveatWords)];
}

/** Of the twenties after the window; further ones are rare enough for a figure. */
const ORDINALS = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth'];

/** Whether it lasted, for one following twenty. */
export function lastingWords(lasting: Lasting, stepLabel: string): { head: string; sentence: string } {
  const [ratio, low, high] = [lasting.effect.estimate, lasting.effect.low, lasting.effect.high].map(Math.exp) as [
    number,
    number,
    number,
  ];
  const step = inSentence(stepLabel);
  const which =
    lasting.nth === 1
      ? 'In the following twenty'
      : `In the ${ORDINALS[lasting.nth] ?? `${lasting.nth}th`} twenty after it`;
  const first = `In the first window it was ${lessOrMore(Math.exp(lasting.firstEstimate))}.`;
  switch (lasting.kind) {
    case 'lasted':
      return {
        head: LASTING_HEAD[lasting.kind],
        sentence: `${which}, ${step} stayed below its baseline: about ${lessOrMore(ratio)} (${rangeOfRatios(low, high)}). ${first}`,
      };
    case 'faded':
      return {
        head: LASTING_HEAD[lasting.kind],
        sentence: `${which} it was back near its baseline (${lessOrMore(ratio)}; ${rangeOfRatios(low, high)}). This is common. Which checkpoint has dropped out?`,
      };
    case 'partly':
      return {
        head: LASTING_HEAD[lasting.kind],
        sentence: `${which} about half of it was left (${lessOrMore(ratio)}; ${rangeOfRatios(low, high)}). ${first}`,
      };
    default:
      return {
        head: LASTING_HEAD[lasting.kind],
        sentence: `${capital(lessOrMore(ratio))}, but anything ${rangeWithFrom(low, high)} fits. The next twenty will say more.`,
      };
  }
}

export const LASTING_HEAD: Record<Lasting['kind'], string> = {
  lasted: 'Lasted',
  faded: 'Faded',
  partly: 'Partly',
  'not-clear': 'Not clear yet',
};

/** "Before the start": what twenty and forty cases can show. Chances 0..1. */
export function powerWords(fifth: { twenty: number; forty: number }, tenth: { twenty: number }): string {
  return (
    `If this step became a fifth shorter, twenty cases would show it ${timesInTen(fifth.twenty)}, forty ${timesInTen(fifth.forty)}. ` +
    `A tenth: ${timesInTen(tenth.twenty)}. So "no clear change" will be common, even when something did change. ` +
    'You will have your own account of what you did in any case.'
  );
}

/** "came first in 97 of 100 resamples of your record". */
export function cameFirst(share: number): string {
  return `came first in ${ofHundred(share)} of 100 resamples of your record`;
}

/** More very short times in a window than chance would bring: a question, never praise. `short` of `of` times. */
export const shortTimesWords = ({ short, of }: { short: number; of: number }): string =>
  `${short} of these ${of} times, adjusted for the eye, are shorter than nine in ten of the baseline cases. Look: was anything left out? They count as they were recorded.`;
