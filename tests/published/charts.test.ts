import { describe, expect, it } from 'vitest';
import { ewma, ewmaHalfWidth, individualsLimits, tabularCusum } from '../../src/lib/statistics';
import { checkValue } from './check-values';
import { expectClose, expectRelative } from './close';

describe('limits of single values', () => {
  it('flow rate (NIST/SEMATECH e-Handbook 6.3.2.2: 50.81, 1.8778, 55.8041, 45.8159)', () => {
    type Limits = { ucl: number; lcl: number };
    const { input, expected, published, tolerance } = checkValue<
      { x: number[] },
      { mean: number; mr_bar: number; 'with_d2_1.128': Limits; with_exact_d2: Limits },
      { mean: number; mr_bar: number; ucl: number; lcl: number }
    >('xmr-nist-flowrate');
    const limits = individualsLimits(input.x)!;
    expectClose([limits.centre, limits.movingRangeMean], [expected.mean, expected.mr_bar], tolerance.expected_abs!);
    expectClose([limits.centre, limits.movingRangeMean], [published.mean, published.mr_bar], tolerance.published_abs!);
    // d2 is 2/√π here, not the rounded 1.128: the limits differ in the third decimal. Rounded, they are NIST's.
    const { with_exact_d2: exact, 'with_d2_1.128': rounded } = expected;
    expectClose([limits.high, limits.low], [exact.ucl, exact.lcl], tolerance.expected_abs!);
    const half = (3 * limits.movingRangeMean) / 1.128;
    expectClose([limits.centre + half, limits.centre - half], [rounded.ucl, rounded.lcl], tolerance.expected_abs!);
    expectClose([limits.centre + half, limits.centre - half], [published.ucl, published.lcl], tolerance.published_abs!);
    expectClose([limits.high, limits.low], [published.ucl, published.lcl], 0.002);
  });

  it('constants for pairs (Shewhart constants as tabulated, e.g. Montgomery, App. VI: d2 1.128, E2 2.659)', () => {
    const { expected, published, tolerance } = checkValue<
      unknown,
      { d2: number; E2: number },
      { d2: number; E2: [number, number] }
    >('shewhart-constants-n2');
    const limits = individualsLimits([0, 1])!;
    expectRelative(1 / limits.sigma, expected.d2, tolerance.expected_rel!);
    expectRelative(limits.high - limits.centre, expected.E2, tolerance.expected_rel!);
    expectClose(1 / limits.sigma, published.d2, 5e-4);
    for (const printed of published.E2) expectClose(limits.high - limits.centre, printed, 0.0016);
  });
});

describe('EWMA', () => {
  it('NIST/SEMATECH e-Handbook 6.3.2.4 (limits 52.5884 and 47.4115)', () => {
    type Values = { ewma: number[]; ucl: number; lcl: number };
    const { input, expected, published, tolerance } = checkValue<
      { x: number[]; lambda: number; target: number; sigma: number; L: number },
      Values,
      Values
    >('ewma-nist-6324');
    const { lambda, target, sigma, L } = input;
    const path = ewma(input.x, { lambda, target });
    const half = ewmaHalfWidth(sigma, lambda, L);
    expectClose(path, expected.ewma, tolerance.expected_abs!);
    expectClose([target + half, target - half], [expected.ucl, expected.lcl], tolerance.expected_abs!);
    expectClose(path, published.ewma, tolerance.published_ewma_abs!);
    // The handbook cuts 47.41157 off rather than rounding it.
    expectClose([target + half, target - half], [published.ucl, published.lcl], tolerance.published_limits_abs!);
  });

  it('limits that widen (Montgomery, Example 9.2: 0.27 at first, 0.62 settled) (from memory)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { x: number[]; lambda: number; target: number; sigma: number; L: number },
      {
        ewma: number[];
        ucl: number[];
        lcl: number[];
        steady_state_half_width: number;
        signal_indices_1based: number[];
      },
      { z1_z2: number[]; half_width_first_and_last: [number, number] }
    >('ewma-montgomery-time-varying');
    const { lambda, target, sigma, L } = input;
    const path = ewma(input.x, { lambda, target });
    const halves = path.map((_, i) => ewmaHalfWidth(sigma, lambda, L, i + 1));
    expectClose(path, expected.ewma, tolerance.expected_abs!);
    expectClose(path.slice(0, 2), published.z1_z2, tolerance.published_abs!);
    expectClose(
      halves.map((half) => target + half),
      expected.ucl,
      tolerance.expected_abs!,
    );
    expectClose(
      halves.map((half) => target - half),
      expected.lcl,
      tolerance.expected_abs!,
    );
    expectClose(ewmaHalfWidth(sigma, lambda, L), expected.steady_state_half_width, tolerance.expected_abs!);
    expectClose([halves[0]!, halves.at(-1)!], published.half_width_first_and_last, tolerance.published_abs!);
    const outside = path.flatMap((z, i) => (Math.abs(z - target) > halves[i]! ? [i + 1] : []));
    expect(outside).toEqual(expected.signal_indices_1based);
  });
});

describe('CUSUM', () => {
  it('NIST/SEMATECH e-Handbook 6.3.2.3 (first signal at 14)', () => {
    type Values = { s_hi: number[]; s_lo: number[] };
    const { input, expected, published, tolerance } = checkValue<
      { x: number[]; target: number; k: number; h: number },
      Values & { first_signal_1based: number },
      Values & { first_signal: number }
    >('cusum-nist-6323');
    const chart = tabularCusum(input.x, input);
    expectClose(chart.high, expected.s_hi, tolerance.expected_abs!);
    expectClose(chart.low, expected.s_lo, tolerance.expected_abs!);
    expectClose(chart.high, published.s_hi, tolerance.published_abs!);
    expectClose(chart.low, published.s_lo, tolerance.published_abs!);
    expect(chart.signal).toMatchObject({ index: expected.first_signal_1based - 1, side: 'high' });
    expect(chart.signal?.index).toBe(published.first_signal - 1);
  });

  it('Montgomery, Introduction to Statistical Quality Control, Table 9.1 (signal at 29, 5.28, N+ 7)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { x: number[]; target: number; k: number; h: number },
      {
        c_plus: number[];
        c_minus: number[];
        first_signal_1based: number;
        n_plus_at_signal: number;
        last_zero_before_signal: number;
      },
      { c_plus_1_to_29: number[]; first_signal: number; n_plus: number }
    >('cusum-montgomery-9.1');
    const chart = tabularCusum(input.x, input);
    expectClose(chart.high, expected.c_plus, tolerance.expected_abs!);
    expectClose(chart.low, expected.c_minus, tolerance.expected_abs!);
    expectClose(chart.high.slice(0, 29), published.c_plus_1_to_29, tolerance.published_abs!);
    const { index, since } = chart.signal!;
    expect(index + 1).toBe(published.first_signal);
    expect(index + 1).toBe(expected.first_signal_1based);
    expect(since).toBe(expected.last_zero_before_signal);
    expect(index - since + 1).toBe(expected.n_plus_at_signal);
    expect(index - since + 1).toBe(published.n_plus);
  });
});
