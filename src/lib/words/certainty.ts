import { ofHundred } from '../format';

/**
 * How sure, in words: the one table for every screen. Shares are shares of resamples of the surgeon's
 * lists, so these words speak of stability, never of a chance of being right.
 */
export const CERTAINTY = [
  { from: 0.9, words: 'first nearly every time' },
  { from: 0.75, words: 'first most times' },
  { from: 0.6, words: 'first more often than not' },
  { from: 0.2, words: 'sometimes first' },
  { from: 0.05, words: 'seldom first' },
  { from: 0, words: '' },
] as const;

/** Words for how often a step came first on a view; empty where it hardly ever did. */
export function firstWords(share: number | null): string {
  if (share === null || !Number.isFinite(share)) return '';
  return CERTAINTY.find((row) => share >= row.from)?.words ?? '';
}

/** "came first in 97 of 100 resamples of your record". */
export function cameFirst(share: number): string {
  return `came first in ${ofHundred(share)} of 100 resamples of your record`;
}
