import { describe, expect, it } from 'vitest';
import {
  ewma,
  huberLocation,
  inControlCusumLimit,
  inControlEwmaLimit,
  mean,
  randomStream,
  sampleSd,
} from '../../../src/lib/statistics';
import { cusumAverageRunLength } from '../../published/comparison/average-run-length';

const how = { horizon: 40, falseSignal: 0.05, seed: 1, runs: 4000 };

/** Share of fresh charts of pure chance that signal, centre and scale estimated from their own start. */
function falseSignals(starting: number, limit: number, runs = 2000): number {
  let wrong = 0;
  for (let run = 0; run < runs; run++) {
    const chance = randomStream(77, run);
    const before = Array.from({ length: starting }, chance.normal);
    const after = Array.from({ length: 40 }, chance.normal);
    const half = limit * sampleSd(before) * Math.sqrt(0.2 / 1.8);
    const target = mean(before);
    if (ewma(after, { lambda: 0.2, target }).some((z) => Math.abs(z - target) > half)) wrong++;
  }
  return wrong / runs;
}

describe('limits from few baseline cases', () => {
  it('EWMA with weight 0.2 over forty cases: about 4.0, 3.5, 3.3 from 20, 40, 80 baseline cases', () => {
    const limits = [20, 40, 80].map((starting) => inControlEwmaLimit(0.2, { ...how, starting }));
    [4.0, 3.5, 3.3].forEach((about, i) => expect(Math.abs(limits[i]! - about)).toBeLessThan(0.12));
  });

  it('keep the promise on fresh charts, where the textbook limit 2.962 signals two to five times too often', () => {
    for (const starting of [20, 40]) {
      const own = falseSignals(starting, inControlEwmaLimit(0.2, { ...how, starting }));
      expect(own).toBeGreaterThan(0.03);
      expect(own).toBeLessThan(0.07);
    }
    expect(falseSignals(40, 2.962)).toBeGreaterThan(0.12);
    expect(falseSignals(20, 2.962)).toBeGreaterThan(0.18);
  });

  it('CUSUM: larger than the limit for a known start, and falling towards it', () => {
    const limits = [20, 80, 2000].map((starting) => inControlCusumLimit(0.5, { ...how, starting, runs: 600 }));
    expect(limits[0]!).toBeGreaterThan(limits[1]!);
    expect(limits[1]!).toBeGreaterThan(limits[2]!);
    // Known start, 5 % in forty cases is about one signal in 780 points.
    const runLength = cusumAverageRunLength({ k: 0.5, h: limits[2]! });
    expect(runLength).toBeGreaterThan(500);
    expect(runLength).toBeLessThan(1200);
  });

  it('same seed, same limit; another way of taking centre and scale is simulated with it', () => {
    const few = { ...how, starting: 40, runs: 500 };
    expect(inControlEwmaLimit(0.2, few)).toBe(inControlEwmaLimit(0.2, few));
    const level = (starting: Float64Array) => {
      const { location, scale } = huberLocation(starting);
      return { centre: location, scale };
    };
    expect(inControlEwmaLimit(0.2, { ...few, level })).toBeGreaterThan(inControlEwmaLimit(0.2, few));
    expect(() => inControlEwmaLimit(0.2, { ...few, starting: 1 })).toThrow('two baseline cases');
  });
});
