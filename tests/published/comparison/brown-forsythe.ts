import { betaCdf } from '../../../src/lib/statistics/distributions';
import { mean } from '../../../src/lib/statistics/mean';
import { median } from '../../../src/lib/statistics/median';
import { requireNumbers, type Numbers } from '../../../src/lib/statistics/numbers';

export type SpreadTest = {
  /** F. */
  statistic: number;
  /** Degrees of freedom: groups − 1, and cases − groups. */
  df: [number, number];
  /** Two-sided. */
  p: number;
  /** `cannot`: fewer than two groups, no cases to spare, or nothing varies; statistic 0, p 1. */
  method: 'f' | 'cannot';
};

/** Probability of more than f: F distribution through the beta distribution. */
const fUpper = (f: number, df1: number, df2: number): number =>
  f <= 0 ? 1 : betaCdf(df2 / (df2 + df1 * f), df2 / 2, df1 / 2);

/** Distances of every value from the median of its group. */
function fromOwnMedian(who: string, groups: readonly Numbers[]): number[][] {
  return groups.map((group) => {
    requireNumbers(who, group);
    const centre = median(group);
    return Array.from(group, (value) => Math.abs(value - centre));
  });
}

/**
 * Do groups differ in spread? Analysis of variance of distances from the group medians
 * (Brown and Forsythe, J. Am. Stat. Assoc. 1974;69:364). For comparison: over its level with few, skewed cases.
 * @param groups two or more rows of values
 * @throws on an empty group or a value that is not a number
 */
export function brownForsythe(groups: readonly Numbers[]): SpreadTest {
  const distances = fromOwnMedian('brownForsythe', groups);
  const all = distances.flat();
  const df: [number, number] = [groups.length - 1, all.length - groups.length];
  const nothing: SpreadTest = { statistic: 0, df, p: 1, method: 'cannot' };
  if (df[0] < 1 || df[1] < 1) return nothing;
  const centre = mean(all);
  let between = 0;
  let within = 0;
  for (const group of distances) {
    const middle = mean(group);
    between += group.length * (middle - centre) ** 2;
    for (const distance of group) within += (distance - middle) ** 2;
  }
  // Distances all equal within groups leave only rounding.
  if (!(within > 1e-24 * all.length * centre * centre)) return nothing;
  const statistic = between / df[0] / (within / df[1]);
  return { statistic, df, p: fUpper(statistic, df[0], df[1]), method: 'f' };
}
