import { tCdf } from './distributions';
import { requireNumbers, requireSameLength, type Numbers } from './numbers';
import { midRanks } from './ranks';

export type RankCorrelation = {
  /** −1..1; 0 when it cannot be said. */
  rho: number;
  /** Two-sided. */
  p: number;
  n: number;
  /** `cannot`: fewer than 4 pairs, or one row does not vary; rho 0, p 1. */
  method: 'exact' | 't' | 'cannot';
};

/** Up to here every order of the ranks is counted; beyond, t is close enough (R counts to 9). */
const EXACT_UP_TO = 10;

/**
 * Spearman's rank correlation: do two things rise together? (Spearman 1904.) Mid-ranks for ties; exact without ties up
 * to 10 pairs, else t with n − 2 degrees of freedom. Assumes independent pairs.
 * @throws on rows of different length, empty rows, or a value that is not a number
 */
export function spearman(x: Numbers, y: Numbers): RankCorrelation {
  requireSameLength('spearman', x, y);
  requireNumbers('spearman', x);
  requireNumbers('spearman', y);
  const n = x.length;
  const a = midRanks(x);
  const b = midRanks(y);
  const middle = (n + 1) / 2;
  let both = 0;
  let ofA = 0;
  let ofB = 0;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const fromA = a.ranks[i]! - middle;
    const fromB = b.ranks[i]! - middle;
    both += fromA * fromB;
    ofA += fromA * fromA;
    ofB += fromB * fromB;
    squares += (fromA - fromB) ** 2;
  }
  if (n < 4 || ofA === 0 || ofB === 0) return { rho: 0, p: 1, n, method: 'cannot' };
  const rho = Math.max(-1, Math.min(1, both / Math.sqrt(ofA * ofB)));

  if (a.ties === 0 && b.ties === 0 && n <= EXACT_UP_TO) {
    const counts = squaredRankDifferenceCounts(n);
    let below = 0;
    let above = 0;
    let all = 0;
    counts.forEach((count, s) => {
      all += count;
      if (s <= squares) below += count;
      if (s >= squares) above += count;
    });
    return { rho, p: Math.min(1, (2 * Math.min(below, above)) / all), n, method: 'exact' };
  }
  const t = (Math.abs(rho) * Math.sqrt(n - 2)) / Math.sqrt(Math.max(Number.MIN_VALUE, 1 - rho * rho));
  return { rho, p: Math.min(1, 2 * tCdf(-t, n - 2)), n, method: 't' };
}

/**
 * In how many of the n! orders Σd² takes each value. Ranks are placed one after another; what is already placed is
 * a set of bits, so the 3,628,800 orders of ten need 1,024 sets.
 */
export function squaredRankDifferenceCounts(n: number): Float64Array {
  const largest = (n * (n * n - 1)) / 3;
  const bySet: (Float64Array | undefined)[] = [new Float64Array(largest + 1)];
  bySet[0]![0] = 1;
  for (let set = 0; set < (1 << n) - 1; set++) {
    const counts = bySet[set]!;
    bySet[set] = undefined;
    let place = 0;
    for (let bit = 0; bit < n; bit++) if (set & (1 << bit)) place++;
    for (let bit = 0; bit < n; bit++) {
      if (set & (1 << bit)) continue;
      const gap = (bit - place) ** 2;
      const next = (bySet[set | (1 << bit)] ??= new Float64Array(largest + 1));
      for (let s = 0; s + gap <= largest; s++) next[s + gap] = next[s + gap]! + counts[s]!;
    }
  }
  return bySet[(1 << n) - 1]!;
}

/**
 * Fisher's z of a correlation: atanh(r), about normal with variance 1/(n − 3). Held at ±12 (r within 1e-10 of ±1) so
 * that it stays a number that can be averaged.
 */
export function fisherZ(r: number): number {
  return Math.max(-12, Math.min(12, Math.atanh(r)));
}
