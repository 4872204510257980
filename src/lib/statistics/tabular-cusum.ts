import type { Numbers } from './numbers';

export type TabularCusum = {
  /** Sums of what lies above target + k and below target − k, never under 0; unit of the values. */
  high: number[];
  low: number[];
  /** First sum above h: place from 0, side, and the first place of the run of positive sums that led there. */
  signal: { index: number; side: 'high' | 'low'; since: number } | null;
};

/**
 * Cumulative sums that notice a lasting shift of about 2k (Page, Biometrika 1954;41:100).
 * @param k slack and @param h limit, both in the unit of the values
 */
export function tabularCusum(
  values: Numbers,
  { target, k, h }: { target: number; k: number; h: number },
): TabularCusum {
  const high: number[] = [];
  const low: number[] = [];
  let up = 0;
  let down = 0;
  let upSince = 0;
  let downSince = 0;
  let signal: TabularCusum['signal'] = null;
  for (let i = 0; i < values.length; i++) {
    up = Math.max(0, up + values[i]! - target - k);
    down = Math.max(0, down + target - k - values[i]!);
    if (up === 0) upSince = i + 1;
    if (down === 0) downSince = i + 1;
    high.push(up);
    low.push(down);
    if (!signal && up > h) signal = { index: i, side: 'high', since: upSince };
    else if (!signal && down > h) signal = { index: i, side: 'low', since: downSince };
  }
  return { high, low, signal };
}
