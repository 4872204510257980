import { describe, expect, it } from 'vitest';
import { dipTail, bimodalityTest, untied } from '../../../src/lib/audit/bimodality';
import { dip, randomStream } from '../../../src/lib/statistics';

/**
 * The dip by its definition: the smallest d for which some distribution function that is convex up to a mode and
 * concave after it stays within d of the steps. Slow, and shares nothing with the code it checks.
 */
function dipByDefinition(x: readonly number[]): number {
  const n = x.length;
  type Point = readonly [number, number];
  /** Greatest convex (sign 1) or least concave (sign −1) curve through or under/over the points, at one place. */
  const envelope = (points: readonly Point[], at: number, sign: 1 | -1) => {
    let best = Infinity;
    for (const a of points)
      for (const b of points) {
        if (a[0] > at || b[0] < at) continue;
        const value =
          a[0] === b[0]
            ? Math.min(sign * a[1], sign * b[1])
            : sign * (a[1] + ((b[1] - a[1]) * (at - a[0])) / (b[0] - a[0]));
        best = Math.min(best, value);
      }
    return sign * best;
  };
  const possible = (d: number) => {
    const least = (i: number) => Math.max(0, (i + 1) / n - d);
    const most = (i: number) => Math.min(1, i / n + d);
    return x.some((_, mode) => {
      const left = (height: number) => {
        const points: Point[] = [...x.slice(0, mode).map((value, i): Point => [value, most(i)]), [x[mode]!, height]];
        return x
          .slice(0, mode + 1)
          .every((value, i) => envelope(points, value, 1) >= (i === mode ? height : least(i)) - 1e-12);
      };
      const right = (height: number) => {
        const points: Point[] = [
          [x[mode]!, height],
          ...x.slice(mode + 1).map((value, i): Point => [value, least(mode + 1 + i)]),
        ];
        return x
          .slice(mode)
          .every((value, i) => envelope(points, value, -1) <= (i === 0 ? height : most(mode + i)) + 1e-12);
      };
      let [low, high] = [least(mode), most(mode)];
      if (low > high || !left(high)) return false;
      for (let halving = 0; halving < 40; halving += 1) {
        const middle = (low + high) / 2;
        if (left(middle)) high = middle;
        else low = middle;
      }
      return right(high);
    });
  };
  let [low, high] = [0, 0.5];
  for (let halving = 0; halving < 40; halving += 1) {
    const middle = (low + high) / 2;
    if (possible(middle)) high = middle;
    else low = middle;
  }
  return high;
}

describe('the dip', () => {
  it('is what its definition says', () => {
    const stream = randomStream(12);
    for (let run = 0; run < 25; run += 1) {
      const values = Array.from(
        { length: 5 + stream.integer(11) },
        () => stream.uniform() + (run % 2 && stream.uniform() < 0.5 ? 2 : 0),
      );
      values.sort((a, b) => a - b);
      expect(dip(Float64Array.from(values))).toBeCloseTo(dipByDefinition(values), 9);
    }
  });

  it('is 1/(2n) for one even hump and a quarter for two points', () => {
    expect(dip(Float64Array.from([1, 2, 3, 4, 5, 6, 7, 8]))).toBe(1 / 16);
    expect(dip(Float64Array.from([0, 0, 0, 0, 1, 1, 1, 1]))).toBe(0.25);
    expect(dip(Float64Array.from([5, 5, 5, 5, 5]))).toBe(0.1);
    expect(dip(Float64Array.from([5]))).toBe(0.5);
  });

  it('has a tail that falls', () => {
    expect(dipTail(0.2)).toBe(1);
    expect(dipTail(0.392)).toBeCloseTo(0.05, 9);
    expect(dipTail(0.41)).toBeLessThan(0.05);
    expect(dipTail(0.7)).toBeLessThan(0.0002);
    expect(dipTail(5)).toBe(1e-6);
  });
});

describe('Two groups', () => {
  const times = (apart: number, run: number, round = false) => {
    const stream = randomStream(40, run);
    return Float64Array.from({ length: 100 }, (_, place) => {
      const seconds = 30 * Math.exp(0.22 * (stream.normal() + (place % 2 ? apart : 0)));
      return round ? Math.round(seconds) : seconds;
    });
  };
  const p = (seconds: Float64Array) => bimodalityTest('a', seconds.map(Math.log), seconds)!.p;
  const share = (apart: number, round: boolean) =>
    Array.from({ length: 200 }, (_, run) => p(times(apart, run, round)) < 0.05).filter(Boolean).length / 200;

  it('are seldom seen in one, whole seconds or not, and mostly in two', () => {
    expect(share(0, false)).toBeLessThan(0.08);
    expect(share(0, true)).toBeLessThan(0.08);
    expect(share(4, false)).toBeGreaterThan(0.9);
    expect(share(4, true)).toBeGreaterThan(0.9);
  });

  it('spreads equal whole seconds over their second, and leaves other times alone', () => {
    expect([...untied(Float64Array.from([5, 5, 7.5, NaN, 6]))]).toEqual([4.75, 5.25, 7.5, NaN, 6]);
  });
});
