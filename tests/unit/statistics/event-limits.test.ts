import { describe, expect, it } from 'vitest';
import {
  bernoulliCusumLimit,
  bernoulliCusumSurvival,
  bernoulliCusumWeights,
  randomStream,
  riskAdjustedWeights,
} from '../../../src/lib/statistics';
import { bernoulliCusum } from '../../published/comparison/bernoulli-cusum-path';

describe('limit of the event monitor', () => {
  it.each([0.004, 0.01, 0.02, 0.05, 0.15])(
    'rate %f: at most 5 in 100 false signals in 200, and no lower limit does',
    (p0) => {
      const limit = bernoulliCusumLimit(p0, 2, 200, 0.05);
      const weights = bernoulliCusumWeights(p0, 2);
      const falseSignal = (at: number) => 1 - bernoulliCusumSurvival(weights, at, p0, 200)[200]!;
      expect(falseSignal(limit)).toBeLessThanOrEqual(0.05);
      expect(falseSignal(limit - 1e-6)).toBeGreaterThan(0.05);
    },
  );

  it('the chain agrees with 8,000 simulated records', () => {
    const p0 = 0.03;
    const limit = bernoulliCusumLimit(p0, 2, 200, 0.05);
    const weights = bernoulliCusumWeights(p0, 2);
    for (const p of [p0, 0.06]) {
      const expected = 1 - bernoulliCusumSurvival(weights, limit, p, 200)[200]!;
      let signals = 0;
      for (let record = 0; record < 8_000; record++) {
        const chance = randomStream(13, record);
        const outcomes = Array.from({ length: 200 }, () => chance.uniform() < p);
        if (bernoulliCusum(outcomes, weights, limit).signal !== null) signals++;
      }
      const error = Math.sqrt((expected * (1 - expected)) / 8_000);
      expect(Math.abs(signals / 8_000 - expected)).toBeLessThan(4 * error);
    }
  });

  it('notices a doubling within 200 operations about one time in three, at rates as published', () => {
    const limit = bernoulliCusumLimit(0.02, 2, 200, 0.05);
    const doubled = (2 * 0.02) / (1 + 0.02);
    const notices = 1 - bernoulliCusumSurvival(bernoulliCusumWeights(0.02, 2), limit, doubled, 200)[200]!;
    expect(notices).toBeGreaterThan(0.25);
    expect(notices).toBeLessThan(0.5);
  });

  it('the sum never falls below 0 and the first signal is kept', () => {
    const weights = bernoulliCusumWeights(0.05, 2);
    // 0.6444 an event: the third makes 1.93, the fourth 2.58, above 2.
    const outcomes = [false, false, true, true, true, true, true, false, false];
    const { path, signal } = bernoulliCusum(outcomes, weights, 2);
    expect(Math.min(...path)).toBe(0);
    expect(path[4]).toBeCloseTo(3 * weights.event, 12);
    expect(signal).toBe(5);
    expect(bernoulliCusum([], weights, 2)).toEqual({ path: [], signal: null });
  });

  it('wrong calls say what is wrong', () => {
    expect(() => riskAdjustedWeights(0, 2)).toThrow('risk above 0 and below 1');
    expect(() => riskAdjustedWeights(0.1, 0)).toThrow('odds ratios above 0');
    expect(() => bernoulliCusumLimit(0.1, 1, 200, 0.05)).toThrow('odds ratio above 1');
    expect(() => bernoulliCusum([true], [], 2)).toThrow('weights for every operation');
  });
});
