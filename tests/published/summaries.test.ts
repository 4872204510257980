import { describe, it } from 'vitest';
import { huberLocation, mad, MAD_CONSTANT, mean, median, quantile, sampleSd } from '../../src/lib/statistics';
import { checkValue } from './check-values';
import { expectClose, expectRelative } from './close';
import { qn, QN_CONSTANT } from './comparison/qn';

type Row = { x: number[] };

describe('mean and SD', () => {
  it('NIST Statistical Reference Datasets, Michelso (certified)', () => {
    const { input, expected, published, tolerance } = checkValue<
      Row,
      { mean: number; sd: number },
      { mean: number; sd: number }
    >('strd-michelso');
    for (const values of [expected, published]) {
      expectClose(mean(input.x), values.mean, tolerance.mean_abs!);
      expectRelative(sampleSd(input.x), values.sd, tolerance.sd_rel!);
    }
  });

  it('NIST Statistical Reference Datasets, Lottery (certified; median from R)', () => {
    const { input, expected, tolerance } = checkValue<Row, { mean: number; sd: number; median: number }>(
      'strd-lottery',
    );
    expectRelative(mean(input.x), expected.mean, tolerance.rel!);
    expectRelative(sampleSd(input.x), expected.sd, tolerance.rel!);
    expectRelative(median(input.x), expected.median, tolerance.rel!);
  });

  it('NIST Statistical Reference Datasets, NumAcc4, the probe for cancellation (from memory)', () => {
    const { expected, tolerance } = checkValue<unknown, { mean: number; sd: number }>('strd-numacc4');
    const pairs = Array.from({ length: 500 }, () => [10000000.1, 10000000.3]);
    const x = [10000000.2, ...pairs.flat()];
    expectRelative(mean(x), expected.mean, tolerance.mean_rel!);
    // The decimals are not representable: no double-precision routine gets 0.1 exactly.
    expectClose(sampleSd(x), expected.sd, tolerance.sd_abs!);
  });
});

describe('quantiles', () => {
  it('types 7 and 8 on the NIST wafer data (Hyndman and Fan 1996, tabulated in Apache Commons Statistics)', () => {
    const { input, expected, published, tolerance } = checkValue<
      Row & { p: number },
      { type7: number; type8: number },
      { type1_to_9: number[] }
    >('quantile-nist-wafer');
    // NIST itself prints type 6, which nothing here uses.
    expectClose(quantile(input.x, input.p, 7), expected.type7, tolerance.expected_abs!);
    expectClose(quantile(input.x, input.p), expected.type8, tolerance.expected_abs!);
    expectClose(quantile(input.x, input.p, 7), published.type1_to_9[6]!, tolerance.published_abs!);
    expectClose(quantile(input.x, input.p, 8), published.type1_to_9[7]!, tolerance.published_abs!);
  });

  it('types 7 and 8 of four values (Apache Commons Statistics QuantileTest; Hyndman and Fan 1996)', () => {
    type Types = { type7: number[]; type8: number[] };
    const { input, expected, published, tolerance } = checkValue<Row & { p: number[] }, Types, Types>(
      'quantile-small-types',
    );
    for (const type of [7, 8] as const) {
      const got = input.p.map((p) => quantile(input.x, p, type));
      // The expected thirds were written with 15 digits.
      expectClose(got, expected[`type${type}`], Math.max(tolerance.abs!, 5e-15));
      expectClose(got, published[`type${type}`], 5e-6);
    }
  });
});

describe('robust location and scale of the copper determinations', () => {
  it('mean, median and MAD (Venables and Ripley 2002, MASS, sec. 5.5)', () => {
    const { input, expected, published, tolerance } = checkValue<
      Row,
      Record<'mean' | 'median' | 'mad_raw' | 'mad_1.4826' | 'mad_exact_constant' | 'exact_constant', number>,
      Record<'mean' | 'median' | 'mad', number>
    >('median-mad-chem');
    expectRelative(mean(input.x), expected.mean, tolerance.expected_rel!);
    expectRelative(median(input.x), expected.median, tolerance.expected_rel!);
    expectRelative(mad(input.x, 1), expected.mad_raw, tolerance.expected_rel!);
    expectRelative(MAD_CONSTANT, expected.exact_constant, 1e-14);
    // All digits of the constant on purpose; R's 1.4826 differs in the seventh and is asked for by name.
    expectRelative(mad(input.x), expected.mad_exact_constant, tolerance.expected_rel!);
    expectRelative(mad(input.x, 1.4826), expected['mad_1.4826'], tolerance.expected_rel!);
    expectClose(mean(input.x), published.mean, 5e-5);
    expectClose(median(input.x), published.median, tolerance.published_abs!);
    expectClose(mad(input.x), published.mad, tolerance.published_abs!);
  });

  it('Huber location with k = 1.5 (Venables and Ripley 2002, MASS, sec. 5.5: huber)', () => {
    type Values = { huber_mu: number; huber_s_mad: number };
    const { input, expected, published, tolerance } = checkValue<
      Row & { k: number },
      Values,
      { huber_mu: number; huber_s: number }
    >('huber-location-chem');
    // MASS stops at 1e-6 scales and rounds the MAD constant: five digits are what can be compared.
    const { location, scale } = huberLocation(input.x, { k: input.k });
    expectClose(location, expected.huber_mu, tolerance.mu_abs!);
    expectClose(scale, expected.huber_s_mad, tolerance.s_abs!);
    expectClose(location, published.huber_mu, tolerance.mu_abs!);
    expectClose(scale, published.huber_s, tolerance.s_abs!);
  });

  it('Qn (Rousseeuw and Croux 1993, as in robustbase 0.95)', () => {
    const { input, expected, tolerance } = checkValue<Row, { Qn: number; Qn_nofinite: number }>('robust-scale-chem');
    // robustbase rounds the constant to 2.21914; all digits are kept here. The rest must agree.
    const rounded = 2.21914 / QN_CONSTANT;
    expectRelative(qn(input.x) * rounded, expected.Qn, tolerance.rel! / 1e4);
    // The factor for 24 values, as robustbase has it: what is left is constant × order statistic.
    const factor = 1 / (1 + (3.67561 + (1.9654 + (6.987 - 77 / 24) / 24) / 24) / 24);
    expectRelative((qn(input.x) * rounded) / factor, expected.Qn_nofinite, tolerance.rel!);
  });
});
