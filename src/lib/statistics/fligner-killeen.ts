import { fromOwnMedian, type SpreadTest } from './brown-forsythe';
import { chiSquareUpper, normalQuantile } from './distributions';
import type { Numbers } from './numbers';
import { midRanks } from './ranks';

/**
 * Do groups differ in spread, whatever the distribution? Normal scores of the ranked distances from the group medians
 * (Fligner and Killeen 1976, median-centred as in Conover, Johnson and Johnson, Technometrics 1981;23:351).
 * For comparison with the permutation test the result uses.
 * @param groups two or more rows of values
 * @throws on an empty group or a value that is not a number
 */
export function flignerKilleen(groups: readonly Numbers[]): SpreadTest {
  const distances = fromOwnMedian('flignerKilleen', groups);
  const all = distances.flat();
  const n = all.length;
  const df: [number, number] = [groups.length - 1, n - groups.length];
  const nothing: SpreadTest = { statistic: 0, df, p: 1, method: 'cannot' };
  if (df[0] < 1 || df[1] < 1) return nothing;
  // Distances equal on paper differ in the last bit and would not be tied (R's own routine misses them).
  const unit = 1e-12 * Math.max(...all);
  const { ranks } = midRanks(unit > 0 ? all.map((distance) => Math.round(distance / unit)) : all);
  const scores = Array.from(ranks, (rank) => normalQuantile(0.5 + rank / (2 * (n + 1))));
  const centre = scores.reduce((sum, score) => sum + score, 0) / n;
  const variance = scores.reduce((sum, score) => sum + (score - centre) ** 2, 0) / (n - 1);
  if (!(variance > 1e-24)) return nothing;
  let statistic = 0;
  let from = 0;
  for (const group of distances) {
    const own = scores.slice(from, from + group.length).reduce((sum, score) => sum + score, 0) / group.length;
    statistic += (group.length * (own - centre) ** 2) / variance;
    from += group.length;
  }
  return { statistic, df, p: chiSquareUpper(statistic, df[0]), method: 'chi-square' };
}
