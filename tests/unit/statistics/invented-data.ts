import { randomStream, type RandomStream } from '../../../src/lib/statistics';

/** Invented cases for the tests: columns of every kind a record has, times with a few outlying ones. */
export function inventedCases(seed: number, n: number, p: number): { columns: Float64Array[]; y: Float64Array } {
  const stream = randomStream(seed, n, p);
  const columns = Array.from({ length: p }, (_, j) => Float64Array.from({ length: n }, kind(stream, j % 3)));
  const y = Float64Array.from({ length: n }, (_, i) => {
    let value = 4 + 0.22 * stream.normal();
    columns.forEach((column, j) => (value += 0.05 * (j - 1) * column[i]!));
    return value + (stream.uniform() < 0.05 ? 0.9 : 0);
  });
  return { columns, y };
}

/** A measurement, a yes/no fact, a year: scales far apart on purpose. */
function kind(stream: RandomStream, which: number): () => number {
  if (which === 0) return () => 23 + stream.normal();
  if (which === 1) return () => (stream.uniform() < 0.3 ? 1 : 0);
  return () => 1950 + stream.integer(50);
}

export const numbersOf = (seed: number, n: number): number[] => {
  const stream = randomStream(seed, n);
  return Array.from({ length: n }, () => 60 * Math.exp(0.3 * stream.normal()));
};
