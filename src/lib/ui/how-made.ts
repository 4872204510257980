/**
 * The page on how a number is made, and the words of a link to it: one table, so that a link cannot lead nowhere and is
 * called the same in every room. A test holds its keys against the pages of `content/method`; the page of changes belongs to no number and has no link.
 */
export const HOW_MADE = {
  'step-time': 'step time',
  adjusted: 'adjusted for the eye',
  median: 'median, 20th percentile, difference',
  spread: 'spread',
  'timing-error': 'your own timing error',
  reference: 'against the reference set',
  share: 'share of the operation',
  'returned-to': 'returned to',
  waiting: 'waiting',
  'over-time': 'over time',
  certainty: 'first in so many of 100',
  suggestion: 'what is suggested',
  patterns: 'when it takes longer',
  pair: 'which two recordings',
  'case-by-case': 'case by case, against the rest',
  'baseline-cases': 'baseline cases, selection allowance and expected range',
  'what-twenty-can-show': 'what twenty cases can show',
  'next-twenty': 'what counts, and what is left out',
  done: 'what was done, and the times beside it',
  result: 'the result',
  steadier: 'steadier',
  lasting: 'whether it lasted',
  'two-stretches': 'two stretches compared',
  'run-chart': 'the run of cases and its limits',
  'other-charts': 'moving average and cumulative sums',
  events: 'what can be said about events',
  monitor: 'the safety monitor and the gate',
  'error-rates': 'how often a result is wrong',
  aimed: 'a goal aimed at certain eyes',
} as const satisfies Record<string, string>;

export type MethodId = keyof typeof HOW_MADE;
