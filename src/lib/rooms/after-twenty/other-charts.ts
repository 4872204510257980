import { itemAt } from '../../item-at';
import { otherCharts, type ChartSeries } from '../../practice';
import { otherChartWords, type Crossing } from '../../words/other-charts';

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

/**
 * The two charts as the page draws and reads them; `null` where there is nothing to draw.
 * @param periodLabel name of a period of the series, 1 for the first window
 */
export function otherChartsView(
  series: ChartSeries | null,
  seed: number,
  periodLabel: (period: number) => string,
): OtherChartsView | null {
  const found = otherCharts(series, seed);
  if (!found) return null;
  const { centre, scale, later, averages, widths, sums, limit: h } = found;
  const outside = found.outside ?? -1;
  const crossing = (index: number, below: boolean): Crossing => ({
    code: later[index]?.code ?? '',
    number: index + 1,
    side: below ? 'shorter' : 'longer',
  });
  const words = otherChartWords({
    cases: later.length,
    starting: found.baseline,
    average: outside < 0 ? null : crossing(outside, itemAt(averages, outside) < centre),
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
          said: `${periods[period]?.label ?? ''}, case ${code}: average ${percent(itemAt(averages, at))}, limits ${limitsOf(at)}`,
          at: [Math.exp(itemAt(averages, at) - centre)],
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
          { name: 'limit', at: later.map(() => h) },
          { name: 'limit', at: later.map(() => -h) },
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
    return `${percent(-itemAt(widths, at))} to ${percent(itemAt(widths, at))}`;
  }
}
