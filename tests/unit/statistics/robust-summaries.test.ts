import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  huberLocation,
  mad,
  MAD_CONSTANT,
  mean,
  median,
  quantile,
  randomStream,
  robustScale,
  sampleSd,
} from '../../../src/lib/statistics';
import { qn, QN_CONSTANT } from '../../published/comparison/qn';
import { kthCrossDifference, kthPairDistance } from '../../../src/lib/statistics/kth-difference';
import { quantileOfSorted } from '../../../src/lib/statistics/quantile';
import { medianInPlace, selectInPlace } from '../../../src/lib/statistics/select';
import { numbersOf } from './invented-data';

const row = fc.array(fc.oneof(fc.integer({ min: -9, max: 9 }), fc.double({ min: -1e3, max: 1e3, noNaN: true })), {
  minLength: 2,
  maxLength: 40,
});
const ascending = (values: readonly number[]) => Float64Array.from(values).sort();

describe('picking the k-th', () => {
  it('value: as sorting would, ties included', () => {
    fc.assert(
      fc.property(row, fc.nat(), (values, k) => {
        const place = k % values.length;
        expect(selectInPlace(Float64Array.from(values), place)).toBe(ascending(values)[place]);
        const half = ascending(values);
        const middle = (half[(half.length - 1) >> 1]! + half[half.length >> 1]!) / 2;
        expect(medianInPlace(Float64Array.from(values))).toBe(middle);
      }),
      { seed: 1 },
    );
  });

  it('difference of two rows: as forming all would', () => {
    fc.assert(
      fc.property(row, row, fc.nat(), (a, b, k) => {
        const all = ascending(a.flatMap((x) => b.map((y) => x - y)));
        const place = k % all.length;
        expect(kthCrossDifference(ascending(a), ascending(b), place + 1)).toBeCloseTo(all[place]!, 12);
      }),
      { seed: 2 },
    );
  });

  it('distance of pairs: as forming all would', () => {
    fc.assert(
      fc.property(row, fc.nat(), (values, k) => {
        const x = ascending(values);
        const all = ascending(Array.from(x).flatMap((right, j) => Array.from(x.slice(0, j), (left) => right - left)));
        const place = k % all.length;
        expect(kthPairDistance(x, place + 1)).toBeCloseTo(all[place]!, 12);
      }),
      { seed: 3 },
    );
  });
});

describe('location and scale follow the data', () => {
  const by = fc.double({ min: 0.01, max: 100, noNaN: true });
  const plus = fc.double({ min: -1e3, max: 1e3, noNaN: true });

  it('locations move and stretch with it, scales only stretch; order never matters', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.integer({ min: 3, max: 50 }),
        by,
        plus,
        (seed, n, times, add) => {
          const x = numbersOf(seed, n);
          const moved = x.map((value) => times * value + add).reverse();
          const size = times * 200 + Math.abs(add);
          const near = (a: number, b: number) => expect(Math.abs(a - b)).toBeLessThan(1e-9 * size);
          near(median(moved), times * median(x) + add);
          near(mean(moved), times * mean(x) + add);
          near(quantile(moved, 0.2), times * quantile(x, 0.2) + add);
          near(huberLocation(moved).location, times * huberLocation(x).location + add);
          near(mad(moved), times * mad(x));
          near(qn(moved), times * qn(x));
        },
      ),
      { seed: 4 },
    );
  });

  it('Huber location lies between median and mean, and with a wide k is the mean', () => {
    const x = [1, 2, 3, 4, 5, 100, 110];
    expect(huberLocation(x).location).toBeGreaterThan(median(x));
    expect(huberLocation(x).location).toBeLessThan(mean(x));
    expect(huberLocation(x, { k: 1e6 }).location).toBeCloseTo(mean(x), 8);
    expect(huberLocation([4, 4, 4])).toEqual({ location: 4, scale: 0 });
  });

  it('quantiles grow with p and stay within the data', () => {
    fc.assert(
      fc.property(row, (values) => {
        const x = ascending(values);
        let last = -Infinity;
        for (let p = 0; p <= 1; p += 0.05) {
          const now = quantileOfSorted(x, Math.min(p, 1));
          expect(now).toBeGreaterThanOrEqual(last - 1e-9);
          expect(now).toBeGreaterThanOrEqual(x[0]!);
          expect(now).toBeLessThanOrEqual(x[x.length - 1]! + 1e-9);
          last = now;
        }
      }),
      { seed: 5 },
    );
  });

  it('quantile type 8 of a value that falls on a place is that value, not its neighbour', () => {
    // (10 + 1/3)·p + 1/3 = 3 on paper, 2.9999999999999996 in doubles.
    const p = (3 - 1 / 3) / (10 + 1 / 3);
    expect(quantile([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], p)).toBe(3);
  });
});

describe('which scale is used', () => {
  it('MAD when it is not 0', () => {
    const x = numbersOf(6, 20);
    expect(robustScale(x)).toEqual({ scale: mad(x), method: 'mad' });
  });

  it('distances of pairs when more than half the values are equal, SD when those are 0 too, else cannot say', () => {
    const rounded = [5, 5, 5, 5, 6, 6, 4];
    expect(mad(rounded)).toBe(0);
    expect(robustScale(rounded)).toEqual({ scale: MAD_CONSTANT / Math.SQRT2, method: 'pairs' });
    const nearly = [5, 5, 5, 5, 5, 5, 5, 9];
    expect(robustScale(nearly)?.method).toBe('sd');
    expect(robustScale([5, 5, 5])).toBeNull();
    expect(robustScale([5])).toBeNull();
    expect(robustScale([])).toBeNull();
    // 0.1 + 0.2 and 0.3 differ only in the machine.
    expect(robustScale([0.3, 0.1 + 0.2, 0.3])).toBeNull();
  });

  it('Qn cannot stand in for the MAD: it is 0 wherever the MAD is', () => {
    const coarse = fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 2, maxLength: 25 });
    fc.assert(
      fc.property(coarse, (x) => {
        if (mad(x) === 0) expect(qn(x)).toBe(0);
      }),
      { numRuns: 1000, seed: 6 },
    );
  });

  it('MAD and Qn estimate the SD of normal data', () => {
    const chance = randomStream(9);
    const x = Array.from({ length: 4000 }, () => 3 * chance.normal());
    for (const scale of [mad(x), qn(x), sampleSd(x)]) expect(Math.abs(scale - 3)).toBeLessThan(0.2);
  });

  it('Qn of two values is their distance times the constants', () => {
    expect(qn([3, 7])).toBeCloseTo(QN_CONSTANT * 0.399356 * 4, 12);
  });
});
