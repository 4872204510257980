import { randomStream, type RandomStream } from './random-stream';

/** What is drawn in a resample: whole lists, or single cases where there are too few lists to draw from. */
export type DrawUnits = {
  /** Of each case, the number of what it is drawn with: 0 … count − 1, by first appearance. */
  unit: Int32Array;
  count: number;
  /** Single cases are drawn: differences between lists are then not in the uncertainty. */
  single: boolean;
};

/**
 * Lists as they are; where there are fewer than `fewest`, each case on its own.
 * @param list any whole number for each case; equal numbers are one list
 */
export function drawUnits(list: Int32Array, fewest: number): DrawUnits {
  const numbers = new Map<number, number>();
  for (const each of list) if (!numbers.has(each)) numbers.set(each, numbers.size);
  if (numbers.size < fewest) return { unit: Int32Array.from(list.keys()), count: list.length, single: true };
  return { unit: list.map((each) => numbers.get(each) ?? 0), count: numbers.size, single: false };
}

/**
 * One resample: counts how often each unit comes up when one fewer than there are is drawn with replacement. With all
 * of them the spread of the resamples is too small by (G − 1)/G (Rao and Wu, J. Am. Stat. Assoc. 1988;83:231).
 * @param counts one place a unit, overwritten; they sum to `howMany`
 */
export function drawInto(counts: Int32Array, stream: RandomStream, howMany = Math.max(1, counts.length - 1)): void {
  counts.fill(0);
  if (counts.length === 0) return;
  for (let draw = 0; draw < howMany; draw++) {
    const unit = stream.integer(counts.length);
    counts[unit] = counts[unit]! + 1;
  }
}

/**
 * The same as a fresh array. Each resample has its own stream, so slices give the same numbers as one go.
 * @param draw number of the resample
 */
export function drawListCounts(groups: number, draw: number, seed: number, howMany?: number): Int32Array {
  const counts = new Int32Array(groups);
  drawInto(counts, randomStream(seed, draw), howMany);
  return counts;
}
