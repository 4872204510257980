import { describe, expect, it } from 'vitest';
import { steadierOf } from '../../../src/lib/practice/steadier';

/** 40 + 20 residuals by formula: half as varied in the window, one outlier at the start. */
const window = Int32Array.from({ length: 60 }, (_, i) => (i >= 40 ? 1 : 0));
const residuals = Float64Array.from({ length: 60 }, (_, i) =>
  i === 7 ? 2.5 : (i >= 40 ? 0.2 : 0.4) * Math.sin(2.7 * i * i) + 0.02 * Math.cos(i),
);
const asked = { residuals, window, selectionAllowance: 0, seed: 3 };

describe('steadier', () => {
  it('gives the ratio and standard error numpy gives', () => {
    // numpy 2.4: deviations from each period's median times √(n/(n−1)), cut at 2.5 · 1.482602218505602 · median|d|, means and var(ddof=1)
    const said = steadierOf(asked);
    expect(said).toMatchObject({ kind: 'said', nBaseline: 40, nWindow: 20 });
    if (said.kind === 'cannot') return;
    expect(said.estimate).toBeCloseTo(-0.6203809638556073, 12);
    expect(said.se).toBeCloseTo(0.1671764719743941, 12);
  });

  it('gives the permutation probability of 200,000 numpy permutations, as far as 1,999 of its own can', () => {
    // numpy: 0.0003 without, 0.0013 with an allowance of 0.1; the least 1,999 can give is 1/2000
    const without = steadierOf(asked);
    const allowed = steadierOf({ ...asked, selectionAllowance: 0.1 });
    if (without.kind === 'cannot' || allowed.kind === 'cannot') throw new Error('no answer');
    expect(without.p).toBeLessThan(0.003);
    expect(allowed.p).toBeLessThan(0.005);
    expect(allowed.estimate).toBeCloseTo(-0.5203809638556072, 12);
    expect(allowed.raw).toBeCloseTo(without.estimate, 12);
    expect(without.steadier).toBe(true);
  });

  it('is the same for one seed, and does not depend on the unit', () => {
    expect(steadierOf(asked)).toEqual(steadierOf(asked));
    const doubled = steadierOf({ ...asked, residuals: residuals.map((value) => 2 * value) });
    expect(doubled).toMatchObject({ p: (steadierOf(asked) as { p: number }).p });
  });

  it('is judged at the level asked', () => {
    const { p } = steadierOf(asked) as { p: number };
    expect(steadierOf({ ...asked, level: p })).toMatchObject({ steadier: true });
    expect(steadierOf({ ...asked, level: p / 2 })).toMatchObject({ steadier: false });
  });

  it('does not call the same spread steadier, nor a wider one', () => {
    const same = residuals.map((value, i) => (i >= 40 ? 2 * value : value));
    expect(steadierOf({ ...asked, residuals: same })).toMatchObject({ steadier: false });
    expect(
      steadierOf({ ...asked, residuals: residuals.map((value, i) => (i >= 40 ? 6 * value : value)) }),
    ).toMatchObject({
      steadier: false,
    });
  });

  it('cannot say with few cases, or with times that are mostly the same', () => {
    const few = residuals.map((value, i) => (i > 50 ? NaN : value));
    expect(steadierOf({ ...asked, residuals: few })).toMatchObject({ why: { code: 'few-cases-to-vary' } });
    expect(steadierOf({ ...asked, residuals: residuals.map(() => 0.1) })).toMatchObject({
      kind: 'cannot',
      why: { code: 'most-the-same' },
    });
    expect(steadierOf({ ...asked, residuals: residuals.map(() => NaN) })).toMatchObject({
      kind: 'cannot',
      why: { code: 'few-cases-to-vary' },
    });
  });
});
