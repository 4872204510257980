import { describe, expect, it } from 'vitest';
import { chanceOfFifth, powerOf } from '../../../src/lib/practice/power';

const cases = Array.from({ length: 40 }, (_, i) => i);
const list = Int32Array.from(cases, (i) => Math.floor(i / 5));
const difference = Float64Array.from(
  cases,
  (i) => 0.2 * Math.sin(1.7 * i) + 0.15 * Math.cos(2.9 * i * i) + 0.15 * Math.sin(1.3 * list[i]!),
);
const asked = { difference, columns: [], list, selectionAllowance: 0.02, steer: -0.1 };

describe('can twenty cases show it', () => {
  it('gives what numpy and scipy give', () => {
    // Huber location with the scale re-estimated, τ = √(Σψ²/39)/share unclipped, deff by analysis of variance of
    // residuals clipped at two scales (1.046), degrees of freedom by Satterthwaite, at most n − p (58 and 78);
    // scipy.stats.t.cdf((|δ| − 0.02)/SE − t.ppf(0.975, df), df)
    const power = powerOf(asked)!;
    expect(power.tenth.twenty.chance).toBeCloseTo(0.4140605039789188, 4);
    expect(power.tenth.forty.chance).toBeCloseTo(0.5765178727784401, 4);
    expect(power.fifth.twenty.chance).toBeCloseTo(0.9856338801032215, 4);
    expect(power.fifth.forty.chance).toBeCloseTo(0.9990296338412791, 4);
    expect(chanceOfFifth({ values: difference, columns: [], list }, 20, 0.02)).toBe(power.fifth.twenty.chance);
  });

  it('is less with a larger allowance, and not said where the start cannot be fitted', () => {
    expect(powerOf({ ...asked, selectionAllowance: 0.1 })!.fifth.twenty.chance).toBeLessThan(
      powerOf(asked)!.fifth.twenty.chance,
    );
    expect(powerOf({ ...asked, steer: null })!.steer).toBeNull();
    expect(powerOf({ ...asked, difference: difference.map(() => 1) })).toBeNull();
    expect(powerOf({ ...asked, difference: difference.map(() => NaN) })).toBeNull();
    expect(chanceOfFifth({ values: new Float64Array(0), columns: [], list: new Int32Array(0) }, 20, 0)).toBeNull();
  });
});
