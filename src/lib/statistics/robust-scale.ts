import { mad } from './mad';
import { sampleSd } from './mean';
import type { Numbers } from './numbers';
import { qn } from './qn';

export type RobustScale = { scale: number; method: 'mad' | 'qn' | 'sd' };

/** Differences of this relative size are rounding of the machine, not variation. */
const ROUNDING = 1e-12;

/**
 * The spread to work with: MAD, or Qn where times rounded to whole seconds make the MAD 0, or the SD where that is 0 too.
 * @returns `null` (cannot say) for fewer than two values or values all equal
 * @throws on a value that is not a number
 */
export function robustScale(values: Numbers): RobustScale | null {
  if (values.length < 2) return null;
  let largest = 0;
  for (let i = 0; i < values.length; i++) largest = Math.max(largest, Math.abs(values[i]!));
  const nothing = ROUNDING * largest;
  const tries = [
    ['mad', mad],
    ['qn', qn],
    ['sd', sampleSd],
  ] as const;
  for (const [method, spread] of tries) {
    const scale = spread(values);
    if (scale > nothing) return { scale, method };
  }
  return null;
}
