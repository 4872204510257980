import { mean } from './mean';
import { requireNumbers, type Numbers } from './numbers';

export type GChart = {
  mean: number;
  /** mean ± 3·√(mean·(mean + 1)), not under 0. */
  low: number;
  high: number;
  /** Event rate 1/(mean + 1). */
  rate: number;
  /** Counts with 0.135 %, 50 % and 99.865 % of chance at or below: the honest limits, the count is skewed. */
  probability: { low: number; middle: number; high: number };
};

/**
 * Operations without event between two events (0 possible), for events too rare to count by period
 * (Benneyan, Health Care Manag. Sci. 2001;4:305). About 2 in 100 counts of pure chance lie above the 3-SD limit.
 * @param between whole numbers ≥ 0, one for each gap
 * @returns `null` for fewer than two gaps
 */
export function gChart(between: Numbers): GChart | null {
  if (between.length < 2) return null;
  requireNumbers('gChart', between);
  const centre = mean(between);
  const half = 3 * Math.sqrt(centre * (centre + 1));
  const rate = 1 / (centre + 1);
  const at = (share: number) =>
    rate === 1 ? 0 : Math.max(0, Math.ceil(Math.log1p(-share) / Math.log1p(-rate) - 1 - 1e-12));
  return {
    mean: centre,
    low: Math.max(0, centre - half),
    high: centre + half,
    rate,
    probability: { low: at(0.00135), middle: at(0.5), high: at(0.99865) },
  };
}
