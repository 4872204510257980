import {
  ewma,
  ewmaHalfWidth,
  inControlCusumLimit,
  inControlEwmaLimit,
  mean,
  sampleSd,
  tabularCusum,
  type TabularCusum,
} from '../statistics';
import type { ChartSeries } from './chart-series';
import { practiceThresholds as set } from './thresholds';

export type OtherCharts = {
  /** Baseline cases that gave centre and SD. */
  baseline: number;
  /** Mean and SD of ln(per cent ÷ 100) of the baseline cases. */
  centre: number;
  scale: number;
  /** Cases after the baseline, in order of time, periods from 1. */
  later: ChartSeries['points'];
  /** Moving average after each of them, and how far its limits lie from the centre; log scale. */
  averages: readonly number[];
  widths: readonly number[];
  /** Place of the first average outside its limits; `null`: none. */
  outside: number | null;
  /** Sums on the log scale, and their limit in SDs. */
  sums: TabularCusum;
  limit: number;
};

/**
 * EWMA (Roberts, Technometrics 1959;1:239) and CUSUM (Page, Biometrika 1954;41:100) over the cases after the baseline,
 * on the logarithm of what the run chart shows, centre and SD from the baseline cases; limits simulated so that they
 * allow for how few those are. `null` while no window is full, or with fewer than 20 baseline cases: textbook limits
 * would signal falsely in 14 to 22 of 100 windows.
 */
export function otherCharts(series: ChartSeries | null, seed: number): OtherCharts | null {
  if (!series) return null;
  const points = series.points.filter(({ percent }) => percent > 0);
  const logs = (of: typeof points) => of.map(({ percent }) => Math.log(percent / 100));
  const start = logs(points.filter(({ period }) => period === 0));
  const later = points.filter(({ period }) => period > 0);
  const after = logs(later);
  if (start.length < set.startAtLeast || after.length === 0) return null;
  const [centre, scale] = [mean(start), sampleSd(start)];
  if (!(scale > 0)) return null;
  const { weight, slack, horizon, falseSignal, runs } = set.otherCharts;
  const how = { starting: start.length, horizon, falseSignal, seed, runs };
  const factor = inControlEwmaLimit(weight, how);
  const limit = inControlCusumLimit(slack, how);
  const averages = ewma(after, { lambda: weight, target: centre });
  const widths = after.map((_, at) => ewmaHalfWidth(scale, weight, factor, at + 1));
  const outside = averages.findIndex((value, at) => Math.abs(value - centre) > (widths[at] ?? Infinity));
  return {
    baseline: start.length,
    centre,
    scale,
    later,
    averages,
    widths,
    outside: outside < 0 ? null : outside,
    sums: tabularCusum(after, { target: centre, k: slack * scale, h: limit * scale }),
    limit,
  };
}
