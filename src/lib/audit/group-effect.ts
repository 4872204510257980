import { kthCrossDifference } from '../statistics/kth-difference';
import type { Interval } from './types';

/** A ratio of times, shrunk towards 1 by how uncertain it is, with its unshrunk 95 % interval. */
export type GroupEffect = Interval & { ratio: number };

const Z = 1.959963984540054;

/**
 * How much longer one group of times is: Hodges–Lehmann shift of logs (median of all differences) with the interval
 * that belongs to the rank-sum test (Hollander and Wolfe, Nonparametric Statistical Methods, section 4.3).
 *
 * @param longer ln(seconds) with the factor; `others` without it.
 */
export function groupEffect(longer: Float64Array, others: Float64Array): GroupEffect {
  const x = longer.slice().sort();
  const y = others.slice().sort();
  const pairs = x.length * y.length;
  const spread = Z * Math.sqrt((pairs * (x.length + y.length + 1)) / 12);
  const outside = Math.max(1, Math.floor(pairs / 2 - spread));
  const at = (k: number) => kthCrossDifference(x, y, k);
  const shift = (at(Math.floor((pairs + 1) / 2)) + at(Math.floor(pairs / 2) + 1)) / 2;
  return shrunk(shift, at(outside), at(pairs + 1 - outside));
}

/**
 * Of the factors looked at only the clearest are shown, and those look larger than they are: the estimate is taken
 * down by max(0, 1 − 1/t²) (positive-part Stein shrinkage). The interval is left as it is, held to include the estimate.
 */
export function shrunk(estimate: number, low: number, high: number): GroupEffect {
  const se = (high - low) / (2 * Z);
  const t = se > 0 ? estimate / se : Infinity;
  const held = estimate === 0 ? 0 : estimate * Math.max(0, 1 - 1 / (t * t));
  return { ratio: Math.exp(held), low: Math.exp(Math.min(low, held)), high: Math.exp(Math.max(high, held)) };
}
