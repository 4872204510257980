import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawnOf, sortedSample, summarise, summariseLevel } from '../../../src/lib/audit/sorted-sample';
import { mad, median, quantile, randomStream } from '../../../src/lib/statistics';
import { drawInto } from '../../../src/lib/statistics';

/** The plain way: copy each drawn time out, sort, read off. */
function plainly(values: Float64Array, list: Int32Array, counts: Int32Array) {
  const drawn: number[] = [];
  values.forEach((value, place) => {
    if (!Number.isNaN(value)) for (let k = 0; k < counts[list[place]!]!; k += 1) drawn.push(value);
  });
  if (drawn.length === 0) return null;
  return { n: drawn.length, median: median(drawn), p20: quantile(drawn, 0.2), logMad: mad(drawn.map(Math.log), 1) };
}

describe('a resample without sorting', () => {
  it('gives the numbers of copying, sorting and reading off, ties and absent steps included', () => {
    const seconds = fc.oneof(
      fc.integer({ min: 1, max: 12 }),
      fc.double({ min: 0.5, max: 300, noNaN: true }),
      fc.constant(NaN),
    );
    const record = fc.integer({ min: 1, max: 60 }).chain((n) =>
      fc.record({
        values: fc.array(seconds, { minLength: n, maxLength: n }),
        list: fc.array(fc.nat(9), { minLength: n, maxLength: n }),
        counts: fc.array(fc.nat(4), { minLength: 10, maxLength: 10 }),
      }),
    );
    fc.assert(
      fc.property(record, ({ values, list, counts }) => {
        const [times, lists, drawn] = [Float64Array.from(values), Int32Array.from(list), Int32Array.from(counts)];
        const expected = plainly(times, lists, drawn);
        const found = { median: NaN, p20: NaN, logMad: NaN };
        expect(summarise(sortedSample(times, lists), drawn, found)).toBe(expected !== null);
        const level = { median: NaN, p20: NaN };
        expect(summariseLevel(sortedSample(times, lists), drawn, level)).toBe(expected !== null);
        expect(drawnOf(sortedSample(times, lists), drawn)).toBe(expected?.n ?? 0);
        if (!expected) return;
        expect(found.median).toBeCloseTo(expected.median, 9);
        expect(found.p20).toBeCloseTo(expected.p20, 9);
        expect(found.logMad).toBeCloseTo(expected.logMad, 9);
        expect(level).toEqual({ median: found.median, p20: found.p20 });
      }),
      { numRuns: 2000, seed: 11 },
    );
  });

  it('draws one list fewer than there are, each equally often', () => {
    const total = new Int32Array(8);
    const counts = new Int32Array(8);
    for (let draw = 0; draw < 4000; draw += 1) {
      drawInto(counts, randomStream(5, draw));
      expect(counts.reduce((sum, count) => sum + count, 0)).toBe(7);
      counts.forEach((count, list) => (total[list]! += count));
    }
    for (const count of total) expect(Math.abs(count / 4000 - 7 / 8)).toBeLessThan(0.05);
    const one = new Int32Array(1);
    drawInto(one, randomStream(5, 1));
    expect([...one]).toEqual([1]);
  });
});
