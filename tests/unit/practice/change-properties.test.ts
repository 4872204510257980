import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changeOf, type Change, type ChangeInput } from '../../../src/lib/practice/change';
import { judgeTime } from '../../../src/lib/practice/judge-time';
import { standardError } from '../../../src/lib/practice/period-fit';
import { randomStream } from '../../../src/lib/statistics';
import { inventedArrays, reordered } from './invented-arrays';

/** A record of chance: 5 to 8 steps, lists of 3 to 6, some times missing, a fact that matters, now and then an outlier. */
const records = fc
  .record({
    seed: fc.integer({ min: 1, max: 1e6 }),
    steps: fc.integer({ min: 5, max: 8 }),
    start: fc.integer({ min: 24, max: 45 }),
    window: fc.integer({ min: 20, max: 30 }),
    listSize: fc.integer({ min: 3, max: 6 }),
    missing: fc.constantFrom(0, 0.1),
  })
  .map(({ seed, steps, start, window, listSize, missing }): ChangeInput => {
    const stream = randomStream(seed, 5);
    const cases = start + window;
    const at = Array.from({ length: cases }, (_, i) => i);
    const list = Int32Array.from(at, (i) => Math.floor(i / listSize));
    const ofList = at.map(() => 0.1 * stream.normal());
    const dense = Float64Array.from(at, () => (stream.uniform() < 0.4 ? 1 : 0));
    const y = Array.from({ length: steps }, (_, step) =>
      Float64Array.from(at, (i) => {
        const value =
          3 +
          step / 3 +
          0.22 * stream.normal() +
          ofList[list[i]!]! +
          0.2 * dense[i]! +
          (stream.uniform() < 0.05 ? 0.8 : 0);
        return step > 0 && stream.uniform() < missing ? NaN : value;
      }),
    );
    return {
      y,
      stepIndex: 0,
      others: Array.from({ length: steps - 1 }, (_, step) => step + 1),
      columns: [dense],
      window: Int32Array.from(at, (i) => (i >= start ? 1 : 0)),
      windows: 1,
      list,
      listsKnown: true,
    };
  });

const runs = { numRuns: 40, seed: 20 };
const estimate = (change: Change, which: 'against' | 'plain' | 'rest') => {
  const fit = change[which];
  return fit.kind === 'fit' ? fit.estimates[0]! : NaN;
};
const shifted = (input: ChangeInput, by: (step: number, at: number) => number): ChangeInput => ({
  ...input,
  y: input.y.map((row, step) => row.map((value, at) => value + by(step, at))),
});

describe('the change of a step against the rest, whatever the record', () => {
  it('does not move when every step of every window case takes longer or shorter by the same part', () => {
    fc.assert(
      fc.property(records, fc.double({ min: -0.7, max: 0.7, noNaN: true }), (input, drift) => {
        const moved = changeOf(shifted(input, (_, at) => (input.window[at] === 1 ? drift : 0)));
        const still = changeOf(input);
        expect(Math.abs(estimate(moved, 'against') - estimate(still, 'against'))).toBeLessThan(1e-6);
        expect(Math.abs(estimate(moved, 'plain') - estimate(still, 'plain') - drift)).toBeLessThan(1e-6);
        expect(Math.abs(estimate(moved, 'rest') - estimate(still, 'rest') - drift)).toBeLessThan(1e-6);
      }),
      runs,
    );
  });

  it('does not depend on the unit of time, nor on how long each step usually is', () => {
    fc.assert(
      fc.property(records, fc.double({ min: 0.01, max: 100, noNaN: true }), (input, unit) => {
        const still = changeOf(input);
        const moved = changeOf(shifted(input, (step) => Math.log(unit) * (1 + step / 4)));
        for (const which of ['against', 'plain', 'rest'] as const)
          expect(Math.abs(estimate(moved, which) - estimate(still, which))).toBeLessThan(1e-6);
      }),
      runs,
    );
  });

  it('moves by what the step alone is made to move', () => {
    fc.assert(
      fc.property(records, fc.double({ min: -0.7, max: 0.7, noNaN: true }), (input, by) => {
        const moved = changeOf(shifted(input, (step, at) => (step === 0 && input.window[at] === 1 ? by : 0)));
        const still = changeOf(input);
        for (const which of ['against', 'plain'] as const)
          expect(Math.abs(estimate(moved, which) - estimate(still, which) - by)).toBeLessThan(1e-6);
        expect(Math.abs(estimate(moved, 'rest') - estimate(still, 'rest'))).toBeLessThan(1e-6);
      }),
      runs,
    );
  });

  it('does not depend on the order of the cases of a list', () => {
    fc.assert(
      fc.property(records, (input) => {
        const order = [...input.list.keys()].sort((a, b) => input.list[a]! - input.list[b]! || b - a);
        const still = changeOf(input);
        const moved = changeOf(reordered(input, order));
        for (const which of ['against', 'plain', 'rest'] as const) {
          expect(Math.abs(estimate(moved, which) - estimate(still, which))).toBeLessThan(1e-6);
          const [a, b] = [still[which], moved[which]];
          if (a.kind === 'fit' && b.kind === 'fit') expect(standardError(b, 0)).toBeCloseTo(standardError(a, 0), 7);
        }
      }),
      runs,
    );
  });

  it('never gives NaN, and the same answer twice', () => {
    fc.assert(
      fc.property(records, (input) => {
        const once = judgeTime(input, { selectionAllowance: 0.02, steer: -0.1, look: 'first' });
        const twice = judgeTime(input, { selectionAllowance: 0.02, steer: -0.1, look: 'first' });
        expect(twice.against).toEqual(once.against);
        for (const effect of [once.against, once.plain, once.rest])
          for (const value of Object.values(effect ?? {})) if (typeof value === 'number') expect(value).not.toBeNaN();
      }),
      runs,
    );
  });

  it('with the second look is judged by a wider interval', () => {
    const input = inventedArrays();
    const first = judgeTime(input, { selectionAllowance: 0, steer: null, look: 'first' }).against!;
    const second = judgeTime(input, { selectionAllowance: 0, steer: null, look: 'second' }).against!;
    // z 2.24 in place of 1.96: the half-widths are as the t quantiles at Φ(2.24) and 0.975 with 45 df, 2.3174 and 2.0141
    // (scipy.stats.t.ppf([norm.cdf(2.24), 0.975], 45)).
    expect((second.high - second.low) / (first.high - first.low)).toBeCloseTo(2.3174 / 2.0141, 3);
  });
});
