import jstat from 'jstat';
import * as simple from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import {
  betaCdf,
  betaQuantile,
  binomialCdf,
  mad,
  mean,
  median,
  normalCdf,
  normalQuantile,
  quantile,
  sampleSd,
  spearman,
  tCdf,
  tQuantile,
} from '../../../src/lib/statistics';
import { leastSquares } from '../../published/comparison/least-squares';
import { midRanks } from '../../../src/lib/statistics/ranks';
import { numbersOf } from './invented-data';

const { jStat } = jstat;
const SIZES = [2, 3, 5, 8, 21, 60, 100];

describe('simple-statistics agrees on random rows', () => {
  it.each(SIZES)('mean, SD, median, MAD of %i values', (n) => {
    const x = numbersOf(21, n);
    expect(mean(x)).toBeCloseTo(simple.mean(x), 10);
    expect(sampleSd(x)).toBeCloseTo(simple.sampleStandardDeviation(x), 10);
    expect(median(x)).toBeCloseTo(simple.median(x), 12);
    expect(mad(x, 1)).toBeCloseTo(simple.medianAbsoluteDeviation(x), 10);
    expect(quantile(x, 0.5)).toBeCloseTo(simple.median(x), 12);
  });

  it('straight line and rank sum', () => {
    const x = numbersOf(22, 30);
    const y = numbersOf(23, 30);
    const line = simple.linearRegression(x.map((value, i) => [value, y[i]!]));
    const fit = leastSquares([Float64Array.from(x)], Float64Array.from(y));
    expect(fit.kind).toBe('fit');
    if (fit.kind === 'fit') {
      expect(fit.coefficients[0]).toBeCloseTo(line.b, 9);
      expect(fit.coefficients[1]).toBeCloseTo(line.m, 10);
    }
    const { ranks } = midRanks([...x, ...y]);
    const own = ranks.slice(0, 30).reduce((sum, rank) => sum + rank, 0);
    expect(own).toBeCloseTo(simple.wilcoxonRankSum(x, y), 10);
    expect(spearman(x, y).rho).toBeCloseTo(simple.sampleRankCorrelation(x, y), 10);
  });
});

describe('jstat agrees to its own 1e-6', () => {
  const ps = [0.0005, 0.025, 0.05, 0.3, 0.5, 0.8, 0.975, 0.999];
  const near = (ours: number, theirs: number) =>
    expect(Math.abs(ours - theirs), `${ours} and ${theirs}`).toBeLessThan(1e-6 * Math.max(1, Math.abs(theirs)));

  it.each([1, 2.5, 4, 18, 97])('t with %f degrees of freedom', (df) => {
    for (const p of ps) near(tQuantile(p, df), jStat.studentt.inv(p, df));
    for (const t of [-4, -1, 0, 0.3, 2, 5]) near(tCdf(t, df), jStat.studentt.cdf(t, df));
  });

  it.each([
    [1, 20],
    [3, 58],
    [12.5, 2],
  ])('beta(%f, %f)', (a, b) => {
    for (const p of ps) near(betaQuantile(p, a, b), jStat.beta.inv(p, a, b));
    for (const x of [0.01, 0.2, 0.5, 0.9]) near(betaCdf(x, a, b), jStat.beta.cdf(x, a, b));
  });

  it('normal, binomial and Spearman', () => {
    for (const p of ps) near(normalQuantile(p), jStat.normal.inv(p, 0, 1));
    for (const z of [-3, -0.5, 0, 1.96]) near(normalCdf(z), jStat.normal.cdf(z, 0, 1));
    for (const k of [0, 3, 9, 20]) near(binomialCdf(k, 20, 0.3), jStat.binomial.cdf(k, 20, 0.3));
    const x = numbersOf(24, 40);
    const y = numbersOf(25, 40);
    near(spearman(x, y).rho, jStat.spearmancoeff(x, y));
  });

  it('the ends', () => {
    expect(binomialCdf(-1, 5, 0.5)).toBe(0);
    expect(binomialCdf(5, 5, 0.5)).toBe(1);
  });
});
