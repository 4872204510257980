import { dayWords } from './by-hand';
import type { LeftTo, Recount } from './recount';

/** Days and codes, wherever they stand: those of a list, a note, a goal or a result of the record, and no other. */
export const DAYS_AND_CODES: readonly Recount[] = [
  [
    /(\d{1,2} [A-Z][a-z]+ \d{4})/,
    ([day], { days, goal, result, reflections, cases }) =>
      [
        ...days,
        ...(goal ? [goal.setAt, ...goal.decisions.map(({ at }) => at)] : []),
        ...(result ? [result.storedAt, ...(result.lasted ?? []).map(({ at }) => at)] : []),
        ...reflections.map(({ at }) => at),
        ...cases.flatMap(({ events }) => (events ?? []).flatMap(({ reviewed }) => reviewed?.at ?? [])),
      ].some((each) => dayWords(each.slice(0, 10)) === day),
  ],
  [/\b(K\d+)\b/, ([code], { cases }) => cases.some((one) => one.code === code)],
];

const words = (pattern: RegExp, test: string): LeftTo => ({ pattern, test, why: 'a word of the method, not a count' });

/** Words of the method that hold a figure, and figures of chance, which have tests of their own. */
export const METHOD: readonly LeftTo[] = [
  words(/20th percentile/, 'tests/published/summaries.test.ts'),
  words(/\b95 %/, 'tests/published/shift-interval.test.ts'),
  words(
    /100 = as|100 = the (median|mean)|\b(left|Left) of 100\b|100 is the median/,
    'tests/unit/practice/chart-series.test.ts',
  ),
  {
    pattern: /in 95 of 100 repetitions/,
    why: 'how often an interval holds, from the simulation',
    test: 'tests/unit/practice/error-rates.test.ts',
  },
  {
    pattern: /about \d+ (times in 100|records of 100|times in 10\b)|about 5 of 100 windows/,
    why: 'an error rate or a power, from the simulation',
    test: 'tests/unit/practice/error-rates.test.ts',
  },
  {
    pattern: /\b\d+ of 100( resamples of your lists)?\b/,
    why: 'how often a step came first in the resamples',
    test: 'tests/unit/audit/audit-of.test.ts',
  },
  {
    pattern:
      /true (rate|share) could be (anywhere )?from [\d.]+ to [\d.]+ in 100|true share could be [\d.]+ to [\d.]+ in 100/,
    why: 'the exact interval of Clopper and Pearson',
    test: 'tests/published/proportions.test.ts',
  },
];
