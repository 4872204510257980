import { shiftInterval } from '../statistics';
import type { Interval } from './types';

/** A ratio of times, shrunk towards 1 by how uncertain it is, with its unshrunk 95 % interval. */
export type GroupEffect = Interval & {
  ratio: number;
  /** Before shrinking. */
  raw: number;
};

const Z = 1.959963984540054;

/**
 * How much longer one group of times is: Hodges–Lehmann shift of logs (median of all differences) with the interval
 * that belongs to the rank-sum test (Hollander and Wolfe, Nonparametric Statistical Methods, section 4.3).
 *
 * @param longer ln(seconds) with the factor; `others` without it.
 */
export function groupEffect(longer: Float64Array, others: Float64Array): GroupEffect {
  const { estimate, low, high } = shiftInterval(longer, others);
  return shrunk(estimate, low, high);
}

/**
 * Of the factors looked at only the clearest are shown, and those look larger than they are: the estimate is reduced by
 * max(0, 1 − 1/t²) (positive-part Stein shrinkage). The interval is left as it is, held to include the estimate.
 */
export function shrunk(estimate: number, low: number, high: number): GroupEffect {
  const se = (high - low) / (2 * Z);
  const t = se > 0 ? estimate / se : Infinity;
  const held = estimate === 0 ? 0 : estimate * Math.max(0, 1 - 1 / (t * t));
  return {
    ratio: Math.exp(held),
    low: Math.exp(Math.min(low, held)),
    high: Math.exp(Math.max(high, held)),
    raw: Math.exp(estimate),
  };
}
