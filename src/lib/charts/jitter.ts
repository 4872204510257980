import { randomLcg, randomUniform } from 'd3';

/**
 * Offsets that pull apart dots of one row, in -1..1. The same seed and row give the same picture every time, so that a
 * reader can find a case again; rows draw from streams of their own, so that a further row moves no other.
 */
export function jitter(seed: number, row: number, count: number): number[] {
  // randomLcg takes its seed as a share of 2^32 when it lies in 0..1; whole numbers next to each other start alike.
  const source = randomLcg(Math.abs(Math.sin(seed * 12.9898 + (row + 1) * 78.233)));
  const draw = randomUniform.source(source)(-1, 1);
  draw();
  return Array.from({ length: count }, draw);
}
