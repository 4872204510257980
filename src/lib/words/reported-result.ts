import type { GoalWindow } from '../practice';
import type { Measure, Outcome } from '../model';
import { cannotSayWords } from './cannot';
import { resultWords } from './result';
import { capital, counted, lessOrMore, listed, rangeOfRatios } from '../format';
import { HIDDEN_UNTIL } from './hidden-until';
import { leftOutWords } from './left-out';
import { SHORTER_WRONG_PER_HUNDRED } from './error-rates';

/** ", over 3 of 4 lists": never more than are needed. */
export const overLists = (lists: number, need: number): string =>
  `, over ${Math.min(lists, need)} of ${counted(need, 'list')}`;

/** How far the window is: "13 of 20 counted, over 3 of 4 lists."; `so`: counted cases of it. */
export function countWords({ full, need, lists, operatedBefore }: GoalWindow, so: number): string {
  if (full) return `The next ${need.cases === 40 ? 'forty' : 'twenty'} are complete.`;
  const over = need.lists > 0 ? overLists(lists, need.lists) : '';
  const early =
    operatedBefore > 0
      ? ` ${counted(operatedBefore, 'case')} operated before the goal was set ${operatedBefore === 1 ? 'counts' : 'count'} for neither.`
      : '';
  return `${Math.min(so, need.cases)} of ${need.cases} counted${over}.${early}`;
}

/** Until when the times are hidden, and how far the window is: "So far 13 of 20 cases, 3 of 4 lists." */
export function hiddenWords({ need, running, lists }: GoalWindow): string {
  const cases = `${Math.min(running.length, need.cases)} of ${counted(need.cases, 'case')}`;
  const over = need.lists === 0 ? '' : `, ${Math.min(lists, need.lists)} of ${counted(need.lists, 'list')}`;
  return `${capital(HIDDEN_UNTIL)}. So far ${cases}${over}.`;
}

export type ResultWordsView = {
  head: string;
  sentences: readonly string[];
  doesNotSay: string | null;
  beside: readonly string[];
};

const WITHOUT_TIME: Partial<Record<Measure, string>> = {
  checkpoints: 'What you did is the result.',
  safety: 'This goal has no time.',
};

/** What a person does next while a review is open; the numbers below stay as they are. */
const PAUSED_DO =
  "No change in time is called a result until it has been looked at. Finish the operation note and your unit's own reporting first; look at the case with a senior colleague; then write here what you will do. The numbers are below and stay as they are.";

/** A result in the words of the one table, with what it does not say and, of a pause, what to do next. */
export function saidOfResult(outcome: Outcome, stepLabel: string): ResultWordsView {
  const said = reportedResult(outcome, stepLabel);
  return outcome.kind === 'paused' ? { ...said, sentences: [...said.sentences, PAUSED_DO] } : said;
}

/** The same for others to read: nothing to do next. */
export function reportedResult(outcome: Outcome, stepLabel: string): ResultWordsView {
  const without = WITHOUT_TIME[outcome.measure];
  if (without && outcome.kind !== 'paused')
    return {
      head: without,
      sentences: outcome.cannot ? [cannotSayWords(outcome.cannot)] : [],
      doesNotSay: 'that the step is safer, or that anything changed.',
      beside: [],
    };
  // What is shown beside *shorter* would give the result away before the review.
  const paused = outcome.kind === 'paused';
  const told = paused
    ? { ...outcome, notes: outcome.notes.filter((note) => note !== 'prior-trend' && note !== 'experience') }
    : outcome;
  const { head, sentences, doesNotSay, beside } = resultWords(told, {
    stepLabel,
    falsePerHundred: SHORTER_WRONG_PER_HUNDRED,
  });
  return {
    head: `${head}.`,
    sentences,
    doesNotSay: outcome.cannot ? null : doesNotSay,
    beside,
  };
}

/** A dot with its interval, and what it says. */
export type EffectRow = {
  id: string;
  label: string;
  under: string;
  ratio: number;
  low: number;
  high: number;
  words: string;
  bold: boolean;
};

/** The dot-and-line rows under a result: the step alone, against the rest (which it rests on), how much it varies. */
export function effectRows(outcome: Outcome): EffectRow[] {
  const steadiness = outcome.measure === 'steadiness';
  const row = (id: string, label: string, effect: Outcome['plain'], bold: boolean): EffectRow[] => {
    if (!effect) return [];
    const [ratio, low, high] = [effect.estimate, effect.low, effect.high].map(Math.exp) as [number, number, number];
    return [
      {
        id,
        label,
        under: `${counted(effect.nWindow, 'case')} against ${effect.nBaseline}`,
        ratio,
        low,
        high,
        words: `${lessOrMore(ratio)} (${rangeOfRatios(low, high)})`,
        bold,
      },
    ];
  };
  return [
    ...row('plain', 'this step alone', outcome.plain, false),
    ...row('against', 'against the rest of the operation', outcome.against, !steadiness),
    ...row('spread', 'how much it varies', outcome.spread, steadiness),
  ];
}

/** Cases left out of the window, before and after their times were seen, with their reasons. */
export function leftOutSentence(window: GoalWindow): string {
  const { before, after, reasons } = window.leftOut;
  const why = Object.entries(reasons).map(
    ([reason, count]) => `${leftOutWords(reason as keyof typeof reasons)} ${count}`,
  );
  return `Left out before times were seen: ${before}. After: ${after}${why.length > 0 ? ` (all reasons: ${listed(why)})` : ''}.`;
}
