import betaCdfOf from '@stdlib/stats-base-dists-beta-cdf';
import betaQuantileOf from '@stdlib/stats-base-dists-beta-quantile';
import normalCdfOf from '@stdlib/stats-base-dists-normal-cdf';
import normalQuantileOf from '@stdlib/stats-base-dists-normal-quantile';
import tCdfOf from '@stdlib/stats-base-dists-t-cdf';
import tQuantileOf from '@stdlib/stats-base-dists-t-quantile';

/*
 * Distribution functions are library work (@stdlib). Measured against R: t and beta to 1e-14 relative; the normal
 * quantile to 4e-7 at p = 1e-12, so nothing here asks it below 1e-9.
 */

/** @param p probability below, 0..1 @param df degrees of freedom > 0, need not be whole */
export const tQuantile = (p: number, df: number): number => tQuantileOf(p, df);

/** Probability below t. @param df degrees of freedom > 0, need not be whole */
export const tCdf = (t: number, df: number): number => tCdfOf(t, df);

/** @param p probability below, 0..1; good to 1e-9 */
export const normalQuantile = (p: number): number => normalQuantileOf(p, 0, 1);

/** Probability below z. */
export const normalCdf = (z: number): number => normalCdfOf(z, 0, 1);

/** @param p probability below, 0..1; a, b > 0 */
export const betaQuantile = (p: number, a: number, b: number): number => betaQuantileOf(p, a, b);

/** Probability below x. @param x 0..1; a, b > 0 */
export const betaCdf = (x: number, a: number, b: number): number => betaCdfOf(x, a, b);

/** Probability of k or fewer in n independent tries with probability p: binomial through the beta distribution. */
export const binomialCdf = (k: number, n: number, p: number): number =>
  k < 0 ? 0 : k >= n ? 1 : betaCdf(1 - p, n - k, k + 1);
