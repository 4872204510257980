import { normalQuantile } from '../../../src/lib/statistics/distributions';
import type { Bounds } from '../../../src/lib/statistics/proportion-intervals';

/**
 * Score interval for a rate, shorter than the exact one and right on average (Wilson, J. Am. Stat. Assoc. 1927;22:209;
 * without continuity correction: method 3 of Newcombe, Stat. Med. 1998;17:857).
 * @param level two-sided; for a one-sided bound at 95 % ask for 0.9 and take one end
 * @returns shares 0..1
 * @throws on counts that are not 0 ≤ k ≤ n, n ≥ 1
 */
export function wilsonInterval(k: number, n: number, level = 0.95): Bounds {
  if (!(n >= 1 && k >= 0 && k <= n)) throw new RangeError(`wilsonInterval requires 0 ≤ k ≤ n, not ${k} of ${n}`);
  const z = normalQuantile(1 - (1 - level) / 2);
  const share = k / n;
  const middle = share + (z * z) / (2 * n);
  const half = z * Math.sqrt((share * (1 - share)) / n + (z * z) / (4 * n * n));
  const whole = 1 + (z * z) / n;
  return { low: k === 0 ? 0 : (middle - half) / whole, high: k === n ? 1 : (middle + half) / whole };
}
