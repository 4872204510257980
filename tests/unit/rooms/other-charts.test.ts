import { describe, expect, it } from 'vitest';
import { otherChartsView } from '../../../src/lib/rooms/after-twenty/other-charts';
import { otherChartWords } from '../../../src/lib/words/other-charts';
import type { ChartSeries } from '../../../src/lib/practice';
import { randomStream } from '../../../src/lib/statistics';

/** A made-up series: so many baseline cases and twenty after them, those by `factor`. */
function series(starting: number, factor: number, seed: number): ChartSeries {
  const stream = randomStream(seed);
  return {
    kind: 'series',
    basis: 'against',
    points: Array.from({ length: starting + 20 }, (_, index) => ({
      caseId: `case-${index + 1}`,
      code: `A${index + 1}`,
      period: index < starting ? 0 : 1,
      list: Math.floor(index / 5),
      percent: 100 * Math.exp(0.2 * stream.normal()) * (index < starting ? 1 : factor),
      look: false,
    })),
    medians: [],
    limits: null,
    signals: null,
  };
}

const label = (period: number) => `window ${period}`;

describe('other charts', () => {
  it('notices a step cut to half, on the shorter side, in both charts', () => {
    const view = otherChartsView(series(40, 0.5, 1), 1, label);
    expect(view?.average.title).toMatch(
      /outside its limits first at case A\d+, number \d+ after the start, on the shorter side/,
    );
    expect(view?.sums.title).toMatch(/over its limit first at case A\d+.* on the shorter side/);
    expect(view?.average.table.rows).toHaveLength(20);
    expect(view?.sums.table.rows).toHaveLength(20);
  });

  it('draws what the title and the table say: up is longer, the ring on the case that is named', () => {
    const view = otherChartsView(series(40, 0.5, 1), 1, label);
    const { signal, cases, limits } = view?.average.input ?? {};
    if (!signal || !cases || !limits) throw new Error('no signal');
    expect(view?.average.title).toContain(`case ${signal.words},`);
    const at = (index: number) => cases[index]?.at[0] ?? NaN;
    expect(at(signal.index)).toBeLessThan(limits[1]?.at[signal.index] ?? NaN);
    expect(at(signal.index - 1)).toBeGreaterThanOrEqual(limits[1]?.at[signal.index - 1] ?? NaN);
    expect(view?.average.table.rows.map(([, average]) => average)).toEqual(
      cases.map((_, index) => String(Math.round(100 * at(index)))),
    );
    const last = view?.sums.input.cases[19]?.at ?? [];
    expect(last[0]).toBeGreaterThanOrEqual(0);
    expect(last[1]).toBeLessThan(-(view?.sums.input.limits[0]?.at[0] ?? NaN));
    expect(view?.sums.input.signal?.line).toBe(1);
    expect(view?.average.input.periods).toEqual([{ id: '1', label: 'window 1' }]);
  });

  it('says that a chart over more than forty cases is crossed by chance more often', () => {
    const words = (cases: number) => otherChartWords({ cases, starting: 40, average: null, sums: null }).note;
    expect(words(40)).not.toContain('more often');
    expect(words(80)).toContain('more often over the 80 cases drawn here');
  });

  it('rings nothing where nothing lies beyond a limit', () => {
    const quiet = Array.from({ length: 40 }, (_, seed) => otherChartsView(series(40, 1, seed), 1, label)).find((view) =>
      view?.average.title.includes('inside'),
    );
    expect(quiet?.average.input.signal).toBeNull();
    expect(quiet?.average.key).not.toContain('ring');
  });

  it('signals by chance about as seldom as it says', () => {
    // 5 in 100 windows of 40 cases; these are of 20, so fewer. Of 60 charts more than 8 would come by chance with p < 0.005.
    const signals = Array.from({ length: 60 }, (_, seed) =>
      otherChartsView(series(20, 1, seed + 100), 1, label),
    ).filter((view) => view?.average.title.includes('outside')).length;
    expect(signals).toBeLessThanOrEqual(8);
  });

  it('is silent without a full window or with a short start', () => {
    expect(otherChartsView(null, 1, label)).toBeNull();
    expect(otherChartsView(series(19, 1, 1), 1, label)).toBeNull();
  });
});
