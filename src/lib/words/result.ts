import { capital, fromRangeOfRatios, inSentence, lessOrMore, prose, rangeOfRatios, timesInTen } from '../format';
import type { Outcome } from '../model';
import { besideWords } from './beside-result';
import { cannotSayWords, isNotATimeGoal } from './cannot';
import { pauseWords } from './pauses';
import { DOES_NOT_SAY, RESULT_HEAD } from './result-heads';
import { rangesSentence, spreadSentence } from './steadiness';

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
          `The likeliest figure is ${lessOrMore(ratio)}, but anything ${fromRangeOfRatios(low, high)} fits.`,
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
