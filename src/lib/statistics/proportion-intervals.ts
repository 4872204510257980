import { betaQuantile } from './distributions';

export type Bounds = { low: number; high: number };

function requireCounts(who: string, k: number, n: number): void {
  if (!(Number.isInteger(k) && Number.isInteger(n) && n >= 1 && k >= 0 && k <= n))
    throw new RangeError(`${who} requires whole numbers 0 ≤ k ≤ n with n from 1, not ${k} of ${n}`);
}

/**
 * Exact two-sided interval for a rate, k events in n cases (Clopper and Pearson, Biometrika 1934;26:404).
 * Never covers less than the level. Assumes independent cases with one rate.
 * @returns shares 0..1
 * @throws on counts that are not 0 ≤ k ≤ n, n ≥ 1
 */
export function clopperPearson(k: number, n: number, level = 0.95): Bounds {
  requireCounts('clopperPearson', k, n);
  const tail = (1 - level) / 2;
  return {
    low: k === 0 ? 0 : betaQuantile(tail, k, n - k + 1),
    high: k === n ? 1 : betaQuantile(1 - tail, k + 1, n - k),
  };
}

/**
 * The rate that n cases without one event rule out, one-sided: 1 − (1 − level)^(1/n). The exact form of the
 * "rule of three" 3/n (Hanley and Lippman-Hand, JAMA 1983;249:1743).
 * @returns share 0..1
 * @throws on n below 1
 */
export function zeroEventsUpper(n: number, level = 0.95): number {
  requireCounts('zeroEventsUpper', 0, n);
  return -Math.expm1(Math.log1p(-level) / n);
}
