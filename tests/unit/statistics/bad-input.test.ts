import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as statistics from '../../../src/lib/statistics';

const {
  clopperPearson,
  huberLocation,
  individualsLimits,
  mad,
  mean,
  median,
  quantile,
  runChart,
  sampleSd,
  spearman,
  theilSen,
  wilcoxonRankSum,
  zeroEventsUpper,
} = statistics;

const ofOneRow: Record<string, (x: readonly number[]) => unknown> = {
  mean,
  median,
  mad,
  sampleSd,
  quantile: (x) => quantile(x, 0.2),
  huberLocation,
  runChart: (x) => runChart(x, 0),
};
const ofTwoRows: Record<string, (x: readonly number[], y: readonly number[]) => unknown> = {
  wilcoxonRankSum,
  spearman,
  theilSen,
};

/** Every number in an answer, however deep. */
function numbersIn(answer: unknown): number[] {
  if (typeof answer === 'number') return [answer];
  if (answer === null || typeof answer !== 'object') return [];
  return Object.values(answer).flatMap(numbersIn);
}

describe('wrong calls throw and name the function', () => {
  it.each(Object.keys(ofOneRow))('%s of nothing, and of a value that is not a number', (name) => {
    expect(() => ofOneRow[name]!([])).toThrow(/requires at least (one|two) data points?/);
    expect(() => ofOneRow[name]!([1, NaN, 3])).toThrow('requires finite numbers; value 1 is NaN');
    expect(() => ofOneRow[name]!([1, 2, Infinity])).toThrow('requires finite numbers; value 2 is Infinity');
  });

  it.each(Object.keys(ofTwoRows))('%s of nothing, and of a value that is not a number', (name) => {
    expect(() => ofTwoRows[name]!([], [])).toThrow(`${name} requires at least one data point`);
    expect(() => ofTwoRows[name]!([1, 2], [NaN, 2])).toThrow('requires finite numbers');
  });

  it('rows that belong together must be of one length', () => {
    expect(() => spearman([1, 2], [1])).toThrow('rows of one length, not 2 and 1');
    expect(() => theilSen([1, 2], [1])).toThrow('rows of one length');
    expect(() => statistics.intraclass([1, 2], [1])).toThrow('rows of one length');
  });

  it('shares, counts and weights out of range', () => {
    expect(() => quantile([1, 2], 1.2)).toThrow('share from 0 to 1');
    expect(() => clopperPearson(3, 2)).toThrow('0 ≤ k ≤ n');
    expect(() => zeroEventsUpper(0)).toThrow('n from 1');
    expect(() => statistics.ewma([1], { lambda: 0, target: 0 })).toThrow('weight above 0');
    expect(() => statistics.benjaminiHochberg([0.2, 1.4], 0.1)).toThrow('from 0 to 1');
  });
});

describe('any data gives finite numbers or says that it cannot', () => {
  const small = fc.array(fc.integer({ min: -3, max: 3 }), { minLength: 1, maxLength: 12 });

  it.each(Object.keys(ofTwoRows))('%s', (name) => {
    fc.assert(
      fc.property(small, small, (a, b) => {
        const n = Math.min(a.length, b.length);
        const answer = ofTwoRows[name]!(a.slice(0, n), b.slice(0, n)) as { p?: number; method: string };
        for (const value of numbersIn(answer)) expect(Number.isNaN(value)).toBe(false);
        if (answer.p !== undefined) {
          expect(answer.p).toBeGreaterThanOrEqual(0);
          expect(answer.p).toBeLessThanOrEqual(1);
        }
        if (answer.method === 'cannot' && answer.p !== undefined) expect(answer.p).toBe(1);
      }),
      { numRuns: 200, seed: 5 },
    );
  });

  it('constant rows', () => {
    for (const test of Object.values(ofTwoRows)) {
      const answer = test([4, 4, 4, 4, 4], [4, 4, 4, 4, 4]) as { method: string };
      expect(answer.method).toBe('cannot');
    }
    expect(mad([2, 2, 2])).toBe(0);
    expect(individualsLimits([2, 2, 2])).toMatchObject({ low: 2, high: 2, sigma: 0 });
    expect(runChart([2, 2, 2], 2)).toMatchObject({ useful: 0, longestRun: 0, crossings: 0, signal: false });
  });

  it('too few for limits: nothing, not a made-up one', () => {
    expect(individualsLimits([])).toBeNull();
    expect(individualsLimits([3])).toBeNull();
    expect(runChart([1], 0).signal).toBe(false);
    expect(runChart([1, 1, 1, 1, 1, 1, 1, 1, 1], 0).signal).toBe(false);
  });

  it('no function changes what it is given', () => {
    const x = Object.freeze([5, 1, 4, 2, 8, 3]);
    const y = Object.freeze([2, 7, 1, 9, 4, 6]);
    for (const one of Object.values(ofOneRow)) expect(() => one(x)).not.toThrow();
    for (const two of Object.values(ofTwoRows)) expect(() => two(x, y)).not.toThrow();
    const typed = Float64Array.from(x);
    median(typed);
    quantile(typed, 0.4);
    mad(typed);
    expect(Array.from(typed)).toEqual(Array.from(x));
  });
});
