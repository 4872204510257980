import type { ChartSeries } from '../practice';
import {
  ewma,
  ewmaHalfWidth,
  inControlCusumLimit,
  inControlEwmaLimit,
  mean,
  sampleSd,
  tabularCusum,
} from '../statistics';

export type OtherChartsView = {
  /** What each chart says of the full windows, in a sentence. */
  sentences: readonly string[];
  columns: readonly { label: string; number?: boolean }[];
  rows: readonly (readonly string[])[];
};

/** Weight of the newest case; slack for a lasting shift of one SD. Common practice for small lasting shifts. */
const [LAMBDA, SLACK] = [0.2, 0.5];
/** Limits crossed by chance in 5 of 100 windows of this many cases. */
const [HORIZON, FALSE_SIGNAL] = [40, 0.05];
/** Enough for the first decimal of a limit, in a few hundredths of a second. */
const RUNS = 1000;
const FEWEST = 20;

/**
 * EWMA and CUSUM over the cases after the start, on the logarithm of what the run chart shows, centre and SD from the
 * starting cases; limits simulated so that they know how few those are. `null` while no window is full, or with fewer
 * than 20 starting cases: textbook limits would signal falsely in 14 to 22 of 100 windows.
 */
export function otherCharts(series: ChartSeries | null, seed: number): OtherChartsView | null {
  if (!series) return null;
  const logs = (which: (period: number) => boolean) =>
    series.points
      .filter(({ period, percent }) => which(period) && percent > 0)
      .map(({ percent }) => Math.log(percent / 100));
  const start = logs((period) => period === 0);
  const after = logs((period) => period > 0);
  if (start.length < FEWEST || after.length === 0) return null;
  const [centre, scale] = [mean(start), sampleSd(start)];
  if (!(scale > 0)) return null;
  const how = { starting: start.length, horizon: HORIZON, falseSignal: FALSE_SIGNAL, seed, runs: RUNS };
  const limit = inControlEwmaLimit(LAMBDA, how);
  const h = inControlCusumLimit(SLACK, how) * scale;
  const averages = ewma(after, { lambda: LAMBDA, target: centre });
  const width = (at: number) => ewmaHalfWidth(scale, LAMBDA, limit, at + 1);
  const crossing = averages.findIndex((value, at) => Math.abs(value - centre) > width(at));
  const sums = tabularCusum(after, { target: centre, k: SLACK * scale, h });
  const percent = (log: number) => `${Math.round(100 * Math.exp(log))}`;
  const codes = series.points.filter(({ period, percent: value }) => period > 0 && value > 0).map(({ code }) => code);
  const sideOf = (below: boolean) => (below ? 'shorter' : 'longer');
  return {
    sentences: [
      crossing < 0
        ? `Moving average (EWMA): inside its limits over all ${after.length} cases after the start.`
        : `Moving average (EWMA): outside its limits first at case ${codes[crossing] ?? ''}, number ${crossing + 1} after the start, on the ${sideOf((averages[crossing] ?? 0) < centre)} side.`,
      sums.signal
        ? `Cumulative sum (CUSUM): over its limit at case ${codes[sums.signal.index] ?? ''}, number ${sums.signal.index + 1} after the start, on the ${sideOf(sums.signal.side === 'low')} side.`
        : `Cumulative sum (CUSUM): under its limit over all ${after.length} cases after the start.`,
      `The limits know that the start is only ${start.length} cases; chance alone crosses each in about 5 of 100 windows of forty. The result above does not rest on them.`,
    ],
    columns: [
      { label: 'Case' },
      { label: 'Moving average, %', number: true },
      { label: 'Its limits, %', number: true },
      { label: 'Sum above, SD', number: true },
      { label: 'Sum below, SD', number: true },
    ],
    rows: averages.map((value, at) => [
      codes[at] ?? '',
      percent(value),
      `${percent(centre - width(at))} to ${percent(centre + width(at))}`,
      ((sums.high[at] ?? 0) / scale).toFixed(1),
      ((sums.low[at] ?? 0) / scale).toFixed(1),
    ]),
  };
}
