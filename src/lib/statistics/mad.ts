import { requireNumbers, type Numbers } from './numbers';
import { medianInPlace } from './select';

/** 1/Φ⁻¹(3/4): makes the MAD estimate the SD of normal data. R rounds it to 1.4826; all digits are kept here. */
export const MAD_CONSTANT = 1.482602218505602;

/**
 * Median absolute deviation from the median, times a constant: a spread that half the data may be wrong about
 * (Hampel, J. Am. Stat. Assoc. 1974;69:383). 0 when more than half the values are equal; see `robustScale`.
 * @returns in the unit of the values
 * @throws on an empty row or a value that is not a number
 */
export function mad(values: Numbers, constant = MAD_CONSTANT): number {
  requireNumbers('mad', values);
  const scratch = Float64Array.from(values);
  const centre = medianInPlace(scratch);
  for (let i = 0; i < scratch.length; i++) scratch[i] = Math.abs(scratch[i]! - centre);
  return constant * medianInPlace(scratch);
}
