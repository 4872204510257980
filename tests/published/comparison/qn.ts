import { kthPairDistance } from '../../../src/lib/statistics/kth-difference';
import { requireNumbers, sorted, type Numbers } from '../../../src/lib/statistics/numbers';

/** 1/(√2 Φ⁻¹(5/8)). The 2.2219 of the 1993 paper is a misprint; all digits are kept here. */
export const QN_CONSTANT = 2.219144465985076;

/** Small-sample factors that make Qn right on average for normal data, n = 2 … 12 (Croux and Rousseeuw 1992, as refined in robustbase). */
const SMALL = [0.399356, 0.99365, 0.51321, 0.84401, 0.6122, 0.85877, 0.66993, 0.87344, 0.72014, 0.88906, 0.75743];

function finiteSampleFactor(n: number): number {
  const listed = SMALL[n - 2];
  if (listed !== undefined) return listed;
  const excess = n % 2 === 1 ? 1.60188 + (-2.1284 - 5.172 / n) / n : 3.67561 + (1.9654 + (6.987 - 77 / n) / n) / n;
  return 1 / (1 + excess / n);
}

/**
 * Qn: a spread from the distances between pairs, as hard to upset as the MAD but finer
 * (Rousseeuw and Croux, J. Am. Stat. Assoc. 1993;88:1273). A second opinion on the MAD, not a stand-in for it: it is 0
 * wherever the MAD is, because n/2 + 1 equal values make the quarter of the pairs it looks at equal too.
 * @returns in the unit of the values; estimates the SD of normal data
 * @throws on fewer than two values or a value that is not a number
 */
export function qn(values: Numbers): number {
  requireNumbers('qn', values);
  const n = values.length;
  if (n < 2) throw new RangeError('qn requires at least two data points');
  const half = Math.floor(n / 2) + 1;
  return QN_CONSTANT * finiteSampleFactor(n) * kthPairDistance(sorted(values), (half * (half - 1)) / 2);
}
