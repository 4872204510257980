import type { DotAxis } from './dot-axes';
import type { DotRow } from './dot-rows';
import { isRatio } from './ratio-axis';

/** A sentence for every row of which an arrow stands for a number: an arrow alone does not say how far. */
export function beyondSentences(rows: readonly DotRow[], { domain: [from, to] }: DotAxis): string[] {
  const inside = (value: number) => value >= from && value <= to;
  return rows
    .filter(({ ratio, low, high }) => isRatio(ratio) && isRatio(low) && isRatio(high))
    .filter(({ ratio, low, high }) => !(inside(ratio) && inside(low) && inside(high)))
    .map(({ label, words, under }) => `Beyond the axis: ${label}, ${words}${under ? `; ${under}` : ''}.`);
}
