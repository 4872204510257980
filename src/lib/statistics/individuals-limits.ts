import { mean } from './mean';
import { requireNumbers, type Numbers } from './numbers';

export type IndividualsLimits = {
  centre: number;
  low: number;
  high: number;
  /** SD judged from the steps between neighbours. */
  sigma: number;
  movingRangeMean: number;
};

/** Mean range of two normal values in SDs: 2/√π. Tables print 1.128, which moves limits in the third decimal. */
const D2 = 2 / Math.sqrt(Math.PI);

/**
 * Limits for single values: mean ± 3 SD, the SD from the mean moving range so that a slow drift does not widen them
 * (Shewhart 1931; NIST/SEMATECH e-Handbook 6.3.2.2). Assumes a known order. A point outside says "look at this one".
 * @returns `null` for fewer than two values; limits in the unit of the values
 * @throws on a value that is not a number
 */
export function individualsLimits(values: Numbers): IndividualsLimits | null {
  if (values.length < 2) return null;
  requireNumbers('individualsLimits', values);
  let sum = 0;
  for (let i = 1; i < values.length; i++) sum += Math.abs(values[i]! - values[i - 1]!);
  const movingRangeMean = sum / (values.length - 1);
  const sigma = movingRangeMean / D2;
  const centre = mean(values);
  return { centre, low: centre - 3 * sigma, high: centre + 3 * sigma, sigma, movingRangeMean };
}
