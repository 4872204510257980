import { normalQuantile } from './distributions';
import { requireNumbers, requireSameLength, type Numbers } from './numbers';
import { midRanks } from './ranks';

export type SlopeEstimate = {
  /** Median of the slopes of all pairs, unit of y per unit of x. */
  slope: number;
  /** ±Infinity: the interval is open, nothing can be excluded on that side. */
  low: number;
  high: number;
  n: number;
  /** `cannot`: fewer than two different x; slope 0 with an open interval. */
  method: 'exact' | 'normal' | 'cannot';
};

const EXACT_UP_TO = 60;

/**
 * Theil–Sen line: the trend that up to 29 % outliers cannot turn (Theil 1950; Sen, J. Am. Stat. Assoc. 1968;63:1379).
 * The interval takes the pair slopes whose ranks hold the level under Kendall's S: exactly without ties up to 60 points,
 * else by its normal variance with tie correction. Assumes independent points; cases of one list should be means first.
 * All pairs are formed: meant for up to some hundred points.
 * @throws on rows of different length, empty rows, or a value that is not a number
 */
export function theilSen(x: Numbers, y: Numbers, level = 0.95): SlopeEstimate {
  requireSameLength('theilSen', x, y);
  requireNumbers('theilSen', x);
  requireNumbers('theilSen', y);
  const n = x.length;
  const slopes = new Float64Array((n * (n - 1)) / 2);
  let count = 0;
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++) if (x[i] !== x[j]) slopes[count++] = (y[j]! - y[i]!) / (x[j]! - x[i]!);
  if (count === 0) return { slope: 0, low: -Infinity, high: Infinity, n, method: 'cannot' };
  const ordered = slopes.subarray(0, count).sort();
  const slope = (ordered[(count - 1) >> 1]! + ordered[count >> 1]!) / 2;

  const tiesX = midRanks(x).ties;
  const tiesY = midRanks(y).ties;
  const exact = tiesX === 0 && tiesY === 0 && n <= EXACT_UP_TO;
  // How many slopes may lie outside on each side.
  const outside = exact ? exactOutside(n, level) : normalOutside(x, y, count, level);
  return {
    slope,
    low: outside < 1 ? -Infinity : ordered[outside - 1]!,
    high: outside < 1 ? Infinity : ordered[count - outside]!,
    n,
    method: exact ? 'exact' : 'normal',
  };
}

/** Largest rank r with P(r − 1 or fewer discordant pairs) ≤ (1 − level)/2, from the exact distribution; 0: none. */
function exactOutside(n: number, level: number): number {
  const shares = discordantShares(n);
  const tail = (1 - level) / 2 + 1e-12;
  let below = 0;
  let rank = 0;
  while (rank < shares.length && below + shares[rank]! <= tail) below += shares[rank++]!;
  return rank;
}

/** Probability of each number of discordant pairs among n! equally likely orders (Kendall 1938, by convolution). */
export function discordantShares(n: number): Float64Array {
  let shares = new Float64Array([1]);
  for (let size = 2; size <= n; size++) {
    const next = new Float64Array((size * (size - 1)) / 2 + 1);
    for (let s = 0; s < shares.length; s++)
      for (let add = 0; add < size; add++) next[s + add] = next[s + add]! + shares[s]! / size;
    shares = next;
  }
  return shares;
}

function normalOutside(x: Numbers, y: Numbers, count: number, level: number): number {
  const n = x.length;
  const tied = (values: Numbers) => {
    const sizes = new Map<number, number>();
    for (let i = 0; i < n; i++) sizes.set(values[i]!, (sizes.get(values[i]!) ?? 0) + 1);
    let sum = 0;
    for (const t of sizes.values()) sum += t * (t - 1) * (2 * t + 5);
    return sum;
  };
  const variance = (n * (n - 1) * (2 * n + 5) - tied(x) - tied(y)) / 18;
  const z = normalQuantile(1 - (1 - level) / 2);
  return Math.floor((count - z * Math.sqrt(Math.max(0, variance))) / 2);
}
