import { requireNumbers, requireSameLength, type Numbers } from './numbers';

export type Intraclass = {
  /** Share of the variance that lies between groups; may be below 0 by chance; 0 when it cannot be said. */
  icc: number;
  /** Typical group size (n − Σm²/n)/(G − 1); 1 when every case is its own group. */
  m0: number;
  /** Design effect 1 + (m0 − 1) · max(0, icc): by how much the variance of a mean grows. */
  deff: number;
  groups: number;
};

/**
 * How much alike cases of one list are: one-way analysis of variance (Fisher; Snedecor and Cochran 1989, ch. 13;
 * design effect: Kish 1965). Lists of one case, fewer than two lists, or values all equal: icc 0, deff 1.
 * @param group any whole number for each value; equal numbers are one group
 * @throws on rows of different length, empty rows, or a value that is not a number
 */
export function intraclass(values: Numbers, group: Numbers): Intraclass {
  requireSameLength('intraclass', values, group);
  requireNumbers('intraclass', values);
  const n = values.length;
  const sums = new Map<number, { size: number; sum: number }>();
  let total = 0;
  for (let i = 0; i < n; i++) {
    const held = sums.get(group[i]!) ?? { size: 0, sum: 0 };
    held.size += 1;
    held.sum += values[i]!;
    sums.set(group[i]!, held);
    total += values[i]!;
  }
  const groups = sums.size;
  let sizeSquares = 0;
  for (const { size } of sums.values()) sizeSquares += size * size;
  const m0 = groups > 1 ? (n - sizeSquares / n) / (groups - 1) : n;
  if (groups < 2 || groups === n) return { icc: 0, m0, deff: 1, groups };

  const centre = total / n;
  let between = 0;
  for (const { size, sum } of sums.values()) between += size * (sum / size - centre) ** 2;
  let within = 0;
  for (let i = 0; i < n; i++) {
    const held = sums.get(group[i]!)!;
    within += (values[i]! - held.sum / held.size) ** 2;
  }
  const meanBetween = between / (groups - 1);
  const meanWithin = within / (n - groups);
  // Values all equal leave only rounding behind.
  const nothing = 1e-24 * n * centre * centre;
  const whole = meanBetween + (m0 - 1) * meanWithin;
  const icc = between + within > nothing ? (meanBetween - meanWithin) / whole : 0;
  return { icc, m0, deff: 1 + (m0 - 1) * Math.max(0, icc), groups };
}
