import { median } from './median';
import type { Numbers } from './numbers';
import { robustScale } from './robust-scale';

/** k of 95 % efficiency at the normal distribution (Huber 1981; Holland and Welsch 1977). */
export const HUBER_K = 1.345;

const MAX_STEPS = 200;
const TOLERANCE = 1e-10;

/**
 * A middle between median and mean: values further than k scales from it count as if they lay at k scales
 * (Huber, Ann. Math. Stat. 1964;35:73). The scale is fixed beforehand (`robustScale` about the median), as in MASS::huber.
 * @returns location and scale in the unit of the values; scale 0 and the median when the values do not vary
 * @throws on an empty row or a value that is not a number
 */
export function huberLocation(
  values: Numbers,
  { k = HUBER_K }: { k?: number } = {},
): { location: number; scale: number } {
  let location = median(values);
  const scale = robustScale(values)?.scale ?? 0;
  if (scale === 0) return { location, scale };
  const reach = k * scale;
  for (let step = 0; step < MAX_STEPS; step++) {
    let sum = 0;
    for (let i = 0; i < values.length; i++) sum += Math.max(-reach, Math.min(reach, values[i]! - location));
    const move = sum / values.length;
    location += move;
    if (Math.abs(move) <= TOLERANCE * scale) break;
  }
  return { location, scale };
}
