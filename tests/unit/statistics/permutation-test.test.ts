import { describe, expect, it } from 'vitest';
import { mean, permutationTest, randomStream, wilcoxonRankSum } from '../../../src/lib/statistics';

const difference = (x: Float64Array, y: Float64Array) => mean(x) - mean(y);

describe('permutation test', () => {
  it('is right at unequal sizes: 5 in 100 at 20 against 80 (a library routine known for 11 is not used)', () => {
    let wrong = 0;
    const runs = 600;
    for (let run = 0; run < runs; run++) {
      const chance = randomStream(14, run);
      const draw = (n: number) => Array.from({ length: n }, () => Math.exp(0.4 * chance.normal()));
      const { p } = permutationTest(draw(20), draw(80), difference, { seed: run, permutations: 199 });
      if (p <= 0.05) wrong++;
    }
    expect(wrong / runs).toBeGreaterThan(0.03);
    expect(wrong / runs).toBeLessThan(0.072);
  });

  it('finds the p of counting all orders, within chance', () => {
    // With ranks as values the statistic is the rank sum, whose exact p is known.
    const x = [1, 2, 4, 7];
    const y = [3, 5, 6, 8, 9, 10];
    const { p } = permutationTest(x, y, difference, { seed: 3, permutations: 19_999 });
    expect(Math.abs(p - wilcoxonRankSum(x, y).p)).toBeLessThan(0.01);
  });

  it('says the same with the same seed, and one side is half of two where the null is symmetric', () => {
    const chance = randomStream(15);
    const x = Array.from({ length: 12 }, () => chance.normal() - 1);
    const y = Array.from({ length: 12 }, chance.normal);
    const how = { seed: 4, permutations: 1999 };
    expect(permutationTest(x, y, difference, how)).toEqual(permutationTest(x, y, difference, how));
    const less = permutationTest(x, y, difference, { ...how, alternative: 'less' });
    const greater = permutationTest(x, y, difference, { ...how, alternative: 'greater' });
    const both = permutationTest(x, y, difference, how);
    expect(less.statistic).toBeLessThan(0);
    expect(less.p).toBeLessThan(0.1);
    expect(greater.p).toBeGreaterThan(0.9);
    expect(Math.abs(both.p - 2 * less.p)).toBeLessThan(0.03);
  });

  it('never gives p 0, and p 1 when nothing varies', () => {
    const apart = permutationTest([1, 2, 3, 4, 5, 6, 7], [101, 102, 103, 104, 105, 106, 107], difference, {
      seed: 5,
      permutations: 99,
    });
    expect(apart.p).toBeGreaterThanOrEqual(1 / 100);
    expect(permutationTest([2, 2, 2], [2, 2], difference, { seed: 1, permutations: 50 }).p).toBe(1);
  });

  it('cannot say when the statistic is not a number', () => {
    const test = permutationTest([1, 2], [3, 4], () => NaN, { seed: 1 });
    expect(test).toEqual({ statistic: 0, p: 1, permutations: 0, method: 'cannot' });
  });
});
