import type { ChartSeries } from '../../practice';
import {
  ewma,
  ewmaHalfWidth,
  inControlCusumLimit,
  inControlEwmaLimit,
  mean,
  sampleSd,
  tabularCusum,
} from '../../statistics';
import { otherChartWords, type Crossing } from './other-charts-words';

/** A chart that adds neighbours up: structural, so that charts and core know nothing of each other. */
export type ShiftView = {
  title: string;
  reading: string;
  key: string;
  input: {
    unit: 'ratio' | 'sd';
    cases: readonly { id: string; period: number; said: string; at: readonly number[] }[];
    periods: readonly { id: string; label: string }[];
    lines: readonly string[];
    limits: readonly { name: string; at: readonly number[] }[];
    signal: { index: number; line: number; words: string } | null;
  };
  table: {
    columns: readonly { label: string; number?: boolean; method?: 'other-charts' }[];
    rows: readonly (readonly string[])[];
  };
};

export type OtherChartsView = { average: ShiftView; sums: ShiftView; note: string };

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
 * @param periodLabel name of a period of the series, 1 for the first window
 */
export function otherCharts(
  series: ChartSeries | null,
  seed: number,
  periodLabel: (period: number) => string,
): OtherChartsView | null {
  if (!series) return null;
  const points = series.points.filter(({ percent }) => percent > 0);
  const logs = (of: typeof points) => of.map(({ percent }) => Math.log(percent / 100));
  const start = logs(points.filter(({ period }) => period === 0));
  const later = points.filter(({ period }) => period > 0);
  const after = logs(later);
  if (start.length < FEWEST || after.length === 0) return null;
  const [centre, scale] = [mean(start), sampleSd(start)];
  if (!(scale > 0)) return null;

  const how = { starting: start.length, horizon: HORIZON, falseSignal: FALSE_SIGNAL, seed, runs: RUNS };
  const limit = inControlEwmaLimit(LAMBDA, how);
  const h = inControlCusumLimit(SLACK, how);
  const averages = ewma(after, { lambda: LAMBDA, target: centre });
  const widths = after.map((_, at) => ewmaHalfWidth(scale, LAMBDA, limit, at + 1));
  const sums = tabularCusum(after, { target: centre, k: SLACK * scale, h: h * scale });

  const outside = averages.findIndex((value, at) => Math.abs(value - centre) > (widths[at] ?? Infinity));
  const crossing = (index: number, below: boolean): Crossing => ({
    code: later[index]?.code ?? '',
    number: index + 1,
    side: below ? 'shorter' : 'longer',
  });
  const words = otherChartWords({
    cases: after.length,
    starting: start.length,
    average: outside < 0 ? null : crossing(outside, (averages[outside] ?? 0) < centre),
    sums: sums.signal && crossing(sums.signal.index, sums.signal.side === 'low'),
  });
  // Periods are numbered from the first window: the start is not drawn here.
  const count = Math.max(...later.map(({ period }) => period));
  const periods = Array.from({ length: count }, (_, at) => ({ id: String(at + 1), label: periodLabel(at + 1) }));
  const percent = (log: number) => `${Math.round(100 * Math.exp(log))}`;
  const inSd = (value: number | undefined) => (value ?? 0) / scale;
  const placed = later.map(({ caseId, code, period }) => ({ id: caseId, code, period: period - 1 }));

  return {
    note: words.note,
    average: {
      ...words.average,
      input: {
        unit: 'ratio',
        periods,
        lines: [''],
        cases: placed.map(({ id, code, period }, at) => ({
          id,
          period,
          said: `${periods[period]?.label ?? ''}, case ${code}: average ${percent(averages[at] ?? NaN)}, limits ${limitsOf(at)}`,
          at: [Math.exp((averages[at] ?? NaN) - centre)],
        })),
        limits: [
          { name: 'limit', at: widths.map((width) => Math.exp(width)) },
          { name: 'limit', at: widths.map((width) => Math.exp(-width)) },
        ],
        signal: outside < 0 ? null : { index: outside, line: 0, words: later[outside]?.code ?? '' },
      },
      table: {
        columns: [
          { label: 'Case' },
          { label: 'Moving average, %', number: true, method: 'other-charts' },
          { label: 'Its limits, %', number: true, method: 'other-charts' },
        ],
        rows: averages.map((value, at) => [later[at]?.code ?? '', percent(value - centre), limitsOf(at)]),
      },
    },
    sums: {
      ...words.sums,
      input: {
        unit: 'sd',
        periods,
        lines: ['longer', 'shorter'],
        cases: placed.map(({ id, code, period }, at) => ({
          id,
          period,
          said: `${periods[period]?.label ?? ''}, case ${code}: longer ${inSd(sums.high[at]).toFixed(1)}, shorter ${inSd(sums.low[at]).toFixed(1)} standard deviations`,
          at: [inSd(sums.high[at]), -inSd(sums.low[at])],
        })),
        limits: [
          { name: 'limit', at: after.map(() => h) },
          { name: 'limit', at: after.map(() => -h) },
        ],
        signal: sums.signal && {
          index: sums.signal.index,
          line: sums.signal.side === 'low' ? 1 : 0,
          words: later[sums.signal.index]?.code ?? '',
        },
      },
      table: {
        columns: [
          { label: 'Case' },
          { label: 'Sum of longer, SD', number: true, method: 'other-charts' },
          { label: 'Sum of shorter, SD', number: true, method: 'other-charts' },
          { label: 'Limit, SD', number: true, method: 'other-charts' },
        ],
        rows: later.map(({ code }, at) => [
          code,
          inSd(sums.high[at]).toFixed(1),
          inSd(sums.low[at]).toFixed(1),
          h.toFixed(1),
        ]),
      },
    },
  };

  function limitsOf(at: number): string {
    return `${percent(-(widths[at] ?? NaN))} to ${percent(widths[at] ?? NaN)}`;
  }
}
