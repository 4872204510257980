import { normalCdf } from './distributions';
import { kthCrossDifference } from './kth-difference';
import { requireNumbers, sorted, type Numbers } from './numbers';
import { midRanks } from './ranks';

export type RankSumTest = {
  /** Pairs in which x is the larger, ties counted half (Mann and Whitney's U of x; R's W). */
  w: number;
  /** Two-sided. */
  p: number;
  /** Hodges–Lehmann: median of all x − y, in the unit of the values. */
  shift: number;
  /** `cannot`: all values equal, p is 1. */
  method: 'exact' | 'normal' | 'cannot';
};

/** With this many values together all counts are whole numbers that a double holds exactly. */
const EXACT_UP_TO = 50;

/**
 * Wilcoxon rank-sum test: does one group tend to be larger? (Wilcoxon 1945; Mann and Whitney 1947; shift: Hodges and
 * Lehmann 1963.) Exact without ties up to 50 values; else normal with tie and continuity correction, as in R.
 * Assumes independent values; anything constant within a list must be tested on list means.
 * @throws on an empty group or a value that is not a number
 */
export function wilcoxonRankSum(x: Numbers, y: Numbers): RankSumTest {
  requireNumbers('wilcoxonRankSum', x);
  requireNumbers('wilcoxonRankSum', y);
  const m = x.length;
  const n = y.length;
  const total = m + n;
  const { ranks, ties } = midRanks([...Array.from(x), ...Array.from(y)]);
  let w = (-m * (m + 1)) / 2;
  for (let i = 0; i < m; i++) w += ranks[i]!;
  const shift = medianDifference(sorted(x), sorted(y));

  if (ties === 0 && total <= EXACT_UP_TO) {
    const counts = rankSumCounts(m, n);
    const all = counts.reduce((sum, count) => sum + count, 0);
    const nearer = Math.min(w, m * n - w);
    let tail = 0;
    for (let u = 0; u <= nearer; u++) tail += counts[u]!;
    return { w, p: Math.min(1, (2 * tail) / all), shift, method: 'exact' };
  }
  const variance = ((m * n) / 12) * (total + 1 - ties / (total * (total - 1)));
  if (!(variance > 0)) return { w, p: 1, shift, method: 'cannot' };
  const away = Math.max(0, Math.abs(w - (m * n) / 2) - 0.5);
  return { w, p: Math.min(1, 2 * normalCdf(-away / Math.sqrt(variance))), shift, method: 'normal' };
}

/**
 * In how many of all C(m + n, m) orders U takes each value 0 … mn: coefficients of the Gaussian binomial,
 * Π (1 − q^(n+i)) / (1 − q^i), one factor and one division at a time.
 */
export function rankSumCounts(m: number, n: number): Float64Array {
  const counts = new Float64Array(m * n + 1);
  counts[0] = 1;
  for (let i = 1; i <= m; i++) {
    for (let u = m * n; u >= n + i; u--) counts[u] = counts[u]! - counts[u - n - i]!;
    for (let u = i; u <= m * n; u++) counts[u] = counts[u]! + counts[u - i]!;
  }
  return counts;
}

function medianDifference(a: Float64Array, b: Float64Array): number {
  const pairs = a.length * b.length;
  const upper = kthCrossDifference(a, b, Math.floor(pairs / 2) + 1);
  return pairs % 2 === 1 ? upper : (kthCrossDifference(a, b, pairs / 2) + upper) / 2;
}
