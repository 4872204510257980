import { requireNumbers, type Numbers } from './numbers';
import { randomStream } from './random-stream';
import { shuffleInPlace } from './shuffle';

export type PermutationTest = {
  /** Of the groups as they are. */
  statistic: number;
  /** (1 + as far out as this) / (1 + permutations): never 0, and right whatever the distribution. */
  p: number;
  permutations: number;
  method: 'permutation' | 'cannot';
};

/**
 * Would groups dealt out at random differ as much? (Fisher 1935; Phipson and Smyth, Stat. Appl. Genet. Mol. Biol.
 * 2010;9:39 for the 1 + .) Group sizes are kept, equal or not. Assumes cases could be exchanged if nothing had changed.
 * @param statistic of the two groups; gets views it must not change. `cannot`: it is not a finite number
 * @param alternative `less`: small values speak against chance; `two-sided` compares absolute values
 * @throws on an empty group or a value that is not a number
 */
export function permutationTest(
  x: Numbers,
  y: Numbers,
  statistic: (x: Float64Array, y: Float64Array) => number,
  {
    seed,
    permutations = 1999,
    alternative = 'two-sided',
  }: { seed: number; permutations?: number; alternative?: 'less' | 'greater' | 'two-sided' },
): PermutationTest {
  requireNumbers('permutationTest', x);
  requireNumbers('permutationTest', y);
  const pooled = Float64Array.from([...Array.from(x), ...Array.from(y)]);
  const first = pooled.subarray(0, x.length);
  const second = pooled.subarray(x.length);
  const observed = statistic(first, second);
  if (!Number.isFinite(observed)) return { statistic: 0, p: 1, permutations: 0, method: 'cannot' };
  const oriented = (value: number) =>
    alternative === 'less' ? -value : alternative === 'greater' ? value : Math.abs(value);
  // Sums in another order differ in the last digits; a tie must count as one.
  const bar = oriented(observed) - 1e-12 * Math.abs(observed);
  const stream = randomStream(seed, permutations);
  let asFar = 0;
  for (let i = 0; i < permutations; i++) {
    shuffleInPlace(pooled, stream);
    const value = statistic(first, second);
    // What cannot be computed must not count for a finding.
    if (!(oriented(value) < bar)) asFar++;
  }
  return { statistic: observed, p: (1 + asFar) / (1 + permutations), permutations, method: 'permutation' };
}
