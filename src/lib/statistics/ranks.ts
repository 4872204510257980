import type { Numbers } from './numbers';

/**
 * Ranks from 1; equal values share the mean of their ranks.
 * @returns ranks in the order of the values, and Σ(t³ − t) over groups of t equal values (0: no ties)
 */
export function midRanks(values: Numbers): { ranks: Float64Array; ties: number } {
  const n = values.length;
  const order = Array.from({ length: n }, (_, i) => i).sort((a, b) => values[a]! - values[b]!);
  const ranks = new Float64Array(n);
  let ties = 0;
  for (let from = 0; from < n;) {
    let to = from + 1;
    while (to < n && values[order[to]!] === values[order[from]!]) to++;
    for (let i = from; i < to; i++) ranks[order[i]!] = (from + 1 + to) / 2;
    ties += (to - from) ** 3 - (to - from);
    from = to;
  }
  return { ranks, ties };
}
