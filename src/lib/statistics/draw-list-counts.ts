import { randomStream } from './random-stream';

/**
 * One resample of the lists: how often each of G lists comes up when G − 1 are drawn with replacement. One fewer than
 * there are, because with G the spread of the resamples is too small by (G − 1)/G (Rao and Wu, J. Am. Stat. Assoc. 1988;83:231).
 * @param groups G, from 1
 * @param draw number of the resample: each has its own stream, so slices give the same numbers
 * @param howMany lists drawn; G − 1 (1 where there is one list) unless said
 * @returns counts in list order, summing to `howMany`
 */
export function drawListCounts(
  groups: number,
  draw: number,
  seed: number,
  howMany = Math.max(1, groups - 1),
): Int32Array {
  const stream = randomStream(seed, draw);
  const counts = new Int32Array(groups);
  for (let i = 0; i < howMany; i++) {
    const list = stream.integer(groups);
    counts[list] = counts[list]! + 1;
  }
  return counts;
}
