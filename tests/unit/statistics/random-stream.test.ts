import { describe, expect, it } from 'vitest';
import { drawListCounts, mean, normalCdf, randomStream, sampleSd, spearman } from '../../../src/lib/statistics';

const take = (n: number, next: () => number) => Array.from({ length: n }, next);

describe('random stream', () => {
  it('gives the same numbers for the same seed and path, other numbers for any other', () => {
    const first = (seed: number, ...path: number[]) => take(5, randomStream(seed, ...path).uniform);
    expect(first(7, 1, 2)).toEqual(first(7, 1, 2));
    const others = [
      first(7),
      first(7, 0),
      first(7, 1),
      first(7, 2, 1),
      first(7, 1, 2, 0),
      first(8, 1, 2),
      first(-7, 1, 2),
    ];
    const seen = new Set([first(7, 1, 2), ...others].flat());
    expect(seen.size).toBe(8 * 5);
  });

  it('tells large seeds apart that agree in their last 32 bits', () => {
    expect(randomStream(5).uniform()).not.toBe(randomStream(5 + 2 ** 40).uniform());
  });

  it('does not depend on what was drawn before or in which slices', () => {
    const all = take(40, () => 0).map((_, draw) => Array.from(drawListCounts(12, draw, 99)));
    const backwards = take(40, () => 0).map((_, i) => Array.from(drawListCounts(12, 39 - i, 99)));
    expect(backwards.reverse()).toEqual(all);
  });

  it('is uniform, and neighbouring paths are unrelated', () => {
    const n = 20_000;
    const firsts = Array.from({ length: n }, (_, path) => randomStream(3, path).uniform());
    const bins = new Array<number>(20).fill(0);
    for (const value of firsts) bins[Math.floor(value * 20)]!++;
    const chiSquare = bins.reduce((sum, count) => sum + (count - n / 20) ** 2 / (n / 20), 0);
    expect(chiSquare).toBeLessThan(43.8); // 99.9 % of χ² with 19 degrees of freedom
    const { p } = spearman(firsts.slice(0, -1), firsts.slice(1));
    expect(p).toBeGreaterThan(0.001);
  });

  it('gives every integer below n equally often and refuses what is no whole number from 1', () => {
    const stream = randomStream(11);
    const counts = new Array<number>(7).fill(0);
    for (let i = 0; i < 70_000; i++) counts[stream.integer(7)]!++;
    for (const count of counts) expect(Math.abs(count - 10_000)).toBeLessThan(4 * Math.sqrt(10_000));
    expect(stream.integer(1)).toBe(0);
    expect(() => stream.integer(0)).toThrow('whole number from 1');
    expect(() => stream.integer(2.5)).toThrow('whole number from 1');
  });

  it('gives standard normal numbers (Kolmogorov distance below its 99.9 % bound)', () => {
    const n = 20_000;
    const stream = randomStream(12);
    const values = take(n, stream.normal).sort((a, b) => a - b);
    const distance = Math.max(...values.map((value, i) => Math.abs(normalCdf(value) - (i + 0.5) / n)));
    expect(distance).toBeLessThan(1.95 / Math.sqrt(n));
    expect(Math.abs(mean(values))).toBeLessThan(4 / Math.sqrt(n));
    expect(Math.abs(sampleSd(values) - 1)).toBeLessThan(4 / Math.sqrt(2 * n));
  });
});

describe('resamples of lists', () => {
  it('draw one list fewer than there are, each as often', () => {
    const totals = new Float64Array(9);
    for (let draw = 0; draw < 5000; draw++) {
      const counts = drawListCounts(9, draw, 1);
      expect(counts.reduce((sum, count) => sum + count, 0)).toBe(8);
      counts.forEach((count, list) => (totals[list] = totals[list]! + count));
    }
    for (const total of totals) expect(Math.abs(total / 5000 - 8 / 9)).toBeLessThan(0.06);
  });

  it('give the spread of a mean that the sample SD says, which drawing all G would not', () => {
    const lists = [3, 9, 4, 12, 7, 6];
    const means = Array.from({ length: 20_000 }, (_, draw) => {
      const counts = drawListCounts(6, draw, 2);
      return lists.reduce((sum, value, i) => sum + value * counts[i]!, 0) / 5;
    });
    expect(Math.abs(sampleSd(means) / (sampleSd(lists) / Math.sqrt(6)) - 1)).toBeLessThan(0.02);
  });

  it('draw the one list where there is only one', () => {
    expect(Array.from(drawListCounts(1, 0, 1))).toEqual([1]);
  });
});
