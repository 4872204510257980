import { describe, expect, it } from 'vitest';
import { otherCharts } from '../../../src/lib/assessment/other-charts';
import type { ChartSeries } from '../../../src/lib/practice';
import { randomStream } from '../../../src/lib/statistics';

/** A made-up series: so many starting cases and twenty after them, those by `factor`. */
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

describe('other charts', () => {
  it('notices a step cut to half, on the shorter side, in both charts', () => {
    const view = otherCharts(series(40, 0.5, 1), 1);
    expect(view?.sentences[0]).toMatch(
      /outside its limits first at case A\d+, number \d+ after the start, on the shorter side/,
    );
    expect(view?.sentences[1]).toMatch(/over its limit at case A\d+.* on the shorter side/);
    expect(view?.rows).toHaveLength(20);
  });
  it('signals by chance about as seldom as it says', () => {
    // 5 in 100 windows of 40 cases; these are of 20, so fewer. Of 60 charts more than 8 would come by chance with p < 0.005.
    const signals = Array.from({ length: 60 }, (_, seed) => otherCharts(series(20, 1, seed + 100), 1)).filter((view) =>
      view?.sentences[0]?.includes('outside'),
    ).length;
    expect(signals).toBeLessThanOrEqual(8);
  });
  it('is silent without a full window or with a short start', () => {
    expect(otherCharts(null, 1)).toBeNull();
    expect(otherCharts(series(19, 1, 1), 1)).toBeNull();
  });
});
