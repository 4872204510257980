import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  benjaminiHochberg,
  fisherZ,
  median,
  randomStream,
  spearman,
  theilSen,
  wilcoxonRankSum,
} from '../../../src/lib/statistics';
import { squaredRankDifferenceCounts } from '../../../src/lib/statistics/spearman';
import { numbersOf } from './invented-data';

const seeds = fc.integer({ min: 1, max: 1e6 });

describe('Wilcoxon rank-sum test', () => {
  it('swapping the groups turns the shift round and keeps p; the shift is the median of all differences', () => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 2, max: 14 }), fc.integer({ min: 2, max: 45 }), (seed, m, n) => {
        const x = numbersOf(seed, m);
        const y = numbersOf(seed + 1, n + 50).slice(0, n);
        const one = wilcoxonRankSum(x, y);
        const other = wilcoxonRankSum(y, x);
        expect(other.p).toBeCloseTo(one.p, 12);
        expect(other.shift).toBeCloseTo(-one.shift, 10);
        expect(one.w + other.w).toBe(m * n);
        expect(one.shift).toBeCloseTo(median(x.flatMap((a) => y.map((b) => a - b))), 10);
        // Only ranks count.
        expect(wilcoxonRankSum(x.map(Math.log), y.map(Math.log)).p).toBe(one.p);
      }),
      { seed: 1 },
    );
  });

  it('is right 95 times in 100 at unequal sizes when nothing differs', () => {
    let wrong = 0;
    for (let record = 0; record < 2000; record++) {
      const chance = randomStream(8, record);
      const draw = (n: number) => Array.from({ length: n }, () => Math.round(20 * Math.exp(0.3 * chance.normal())));
      if (wilcoxonRankSum(draw(9), draw(40)).p <= 0.05) wrong++;
    }
    expect(wrong / 2000).toBeGreaterThan(0.03);
    expect(wrong / 2000).toBeLessThan(0.065);
  });

  it('all values equal: cannot say, p 1', () => {
    expect(wilcoxonRankSum([3, 3], [3, 3, 3])).toEqual({ w: 3, p: 1, shift: 0, method: 'cannot' });
  });

  it('exact and normal p are close where one takes over from the other', () => {
    const x = numbersOf(9, 20).map((v) => v * 1.2);
    const exact = wilcoxonRankSum(x, numbersOf(10, 30));
    const normal = wilcoxonRankSum([...x, 1e6], [...numbersOf(10, 30), 0]);
    expect([exact.method, normal.method]).toEqual(['exact', 'normal']);
    expect(Math.abs(exact.p - normal.p)).toBeLessThan(0.02);
  });
});

describe('Spearman correlation', () => {
  it('counts every order of five once (all 120 formed)', () => {
    const counts = new Float64Array(41);
    const place = (left: number[], taken: number[]): void => {
      if (left.length === 0) {
        const s = taken.reduce((sum, rank, i) => sum + (rank - i) ** 2, 0);
        counts[s] = counts[s]! + 1;
      }
      left.forEach((rank, i) => place([...left.slice(0, i), ...left.slice(i + 1)], [...taken, rank]));
    };
    place([0, 1, 2, 3, 4], []);
    expect(Array.from(squaredRankDifferenceCounts(5))).toEqual(Array.from(counts));
  });

  it('is ±1 for rows in the same and in opposite order, 0 with p 1 where it cannot be said', () => {
    const x = [1, 5, 7, 9, 20];
    expect(spearman(x, x.map(Math.sqrt))).toMatchObject({ rho: 1, method: 'exact' });
    expect(
      spearman(
        x,
        x.map((v) => -v),
      ).p,
    ).toBeCloseTo(2 / 120, 12);
    const long = numbersOf(3, 30);
    expect(spearman(long, long)).toMatchObject({ rho: 1, method: 't' });
    expect(spearman(long, long).p).toBeLessThan(1e-12);
    for (const [a, b] of [
      [
        [1, 2, 3],
        [1, 2, 3],
      ],
      [[1, 1, 1, 1, 1], x],
      [x, [2, 2, 2, 2, 2]],
    ] as const)
      expect(spearman(a, b)).toEqual({ rho: 0, p: 1, n: a.length, method: 'cannot' });
  });

  it('Fisher z stays a number at ±1', () => {
    expect(fisherZ(0.5)).toBeCloseTo(0.5493061443340549, 14);
    expect(fisherZ(1)).toBe(12);
    expect(fisherZ(-1)).toBe(-12);
  });
});

describe('Theil–Sen slope', () => {
  it('moves with the data: y plus a line, y and x stretched, any order of points', () => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 3, max: 30 }), (seed, n) => {
        const x = Array.from({ length: n }, (_, i) => i + 1);
        const y = numbersOf(seed, n);
        const plain = theilSen(x, y);
        const moved = theilSen(x.map((v) => 5 * v).reverse(), y.map((v, i) => 2 * v + 7 + 3 * (i + 1)).reverse());
        expect(moved.slope).toBeCloseTo((2 * plain.slope + 3) / 5, 9);
        if (Number.isFinite(plain.low)) expect(moved.low).toBeCloseTo((2 * plain.low + 3) / 5, 9);
        else expect(moved.low).toBe(-Infinity);
        expect(plain.low).toBeLessThanOrEqual(plain.slope);
        expect(plain.high).toBeGreaterThanOrEqual(plain.slope);
      }),
      { seed: 2 },
    );
  });

  it('its interval holds the true slope 95 times in 100, exact and normal', () => {
    for (const [n, method] of [
      [10, 'exact'],
      [70, 'normal'],
    ] as const) {
      const runs = n === 10 ? 2000 : 500;
      let held = 0;
      for (let record = 0; record < runs; record++) {
        const chance = randomStream(4, n, record);
        const x = Array.from({ length: n }, (_, i) => i);
        const line = theilSen(
          x,
          x.map((v) => 0.4 * v + chance.normal()),
        );
        expect(line.method).toBe(method);
        if (line.low <= 0.4 && line.high >= 0.4) held++;
      }
      expect(held / runs).toBeGreaterThan(0.925);
      expect(held / runs).toBeLessThan(0.985);
    }
  });

  it('says so when there is too little: an open interval, not a number made up', () => {
    expect(theilSen([4], [1])).toEqual({ slope: 0, low: -Infinity, high: Infinity, n: 1, method: 'cannot' });
    expect(theilSen([4, 4], [1, 9])).toMatchObject({ slope: 0, method: 'cannot' });
    expect(theilSen([1, 2, 3], [1, 2, 9])).toMatchObject({ slope: 4, low: -Infinity, high: Infinity });
  });

  it('ties in x and y go the normal way', () => {
    const line = theilSen([1, 1, 2, 2, 3, 3, 4, 4, 5, 5], [1, 2, 2, 3, 3, 4, 4, 5, 5, 6]);
    expect(line).toMatchObject({ slope: 1, method: 'normal' });
    expect(line.low).toBeGreaterThan(0);
  });
});

describe('Benjamini–Hochberg', () => {
  it('goes through all orders alike; adjusted values grow with p and never fall below it', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 25 }), (p) => {
        const plain = benjaminiHochberg(p, 0.1);
        const reversed = benjaminiHochberg(p.slice().reverse(), 0.1);
        expect(reversed.adjusted.slice().reverse()).toEqual(plain.adjusted);
        p.forEach((value, i) => {
          expect(plain.adjusted[i]!).toBeGreaterThanOrEqual(value - 1e-15);
          expect(plain.rejected[i]).toBe(plain.adjusted[i]! <= 0.1 * (1 + 1e-12));
        });
      }),
      { seed: 3 },
    );
    expect(benjaminiHochberg([], 0.1)).toEqual({ rejected: [], adjusted: [] });
  });
});
