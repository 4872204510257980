import type { RandomStream } from '../statistics';
import { auditThresholds } from './thresholds';

/** What is drawn in a resample: whole lists, or single cases where there are too few lists to draw from. */
export type DrawUnits = { unit: Int32Array; count: number; single: boolean };

/** Lists as they are; under six of them, each case on its own. */
export function drawUnits(list: Int32Array, listCount: number): DrawUnits {
  if (listCount >= auditThresholds.listsToDraw) return { unit: list, count: listCount, single: false };
  return { unit: Int32Array.from(list.keys()), count: list.length, single: true };
}

/**
 * Draws G − 1 of G with replacement (one fewer than there are makes the spread of resamples that of the record:
 * Rao and Wu, J. Am. Stat. Assoc. 1988;83:231) and counts how often each came.
 */
export function drawInto(counts: Int32Array, stream: RandomStream): void {
  counts.fill(0);
  const draws = Math.max(1, counts.length - 1);
  if (counts.length === 0) return;
  for (let draw = 0; draw < draws; draw += 1) counts[stream.integer(counts.length)]! += 1;
}
