import { requireNumbers, type Numbers } from './numbers';
import { medianInPlace } from './select';

/**
 * Median: the middle value, or half-way between the two middle ones.
 * @throws on an empty row or a value that is not a number
 */
export function median(values: Numbers): number {
  requireNumbers('median', values);
  return medianInPlace(Float64Array.from(values));
}
