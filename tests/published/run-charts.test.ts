import { describe, expect, it } from 'vitest';
import { binomialCdf, median, runChart } from '../../src/lib/statistics';
import { checkValue } from './check-values';
import { expectClose } from './close';

const alternating = (n: number) => Array.from({ length: n }, (_, i) => (i % 2 === 0 ? 1 : -1));

describe('run chart', () => {
  it('limits for 10 to 60 points (Anhøj and Olesen, PLoS ONE 2014;9:e113825; 7 and 7 at 22)', () => {
    const { input, expected, published } = checkValue<
      { n: number[] },
      { longest_run_limit: number[]; crossings_limit: number[] },
      { n22: [number, number] }
    >('runchart-limits-10-60');
    const charts = input.n.map((n) => runChart(alternating(n), 0));
    expect(charts.map((chart) => chart.longestRunLimit)).toEqual(expected.longest_run_limit);
    expect(charts.map((chart) => chart.crossingsLimit)).toEqual(expected.crossings_limit);
    const at22 = charts[input.n.indexOf(22)]!;
    expect([at22.longestRunLimit, at22.crossingsLimit]).toEqual(published.n22);
    // Strict on both sides: a run of the limit's length is no signal, one longer is.
    const withRun = (length: number) => [
      ...new Array<number>(length).fill(1),
      ...alternating(22 - length).map((x) => -x),
    ];
    expect(runChart(withRun(7), 0).signal).toBe(false);
    expect(runChart(withRun(8), 0).signal).toBe(true);
  });

  it('counting: 13 points with five crossings and a run of three (summary of Wentzel-Larsen and Anhøj 2019)', () => {
    type Counts = { n: number; longest: number; crossings: number; median?: number };
    const { input, expected, published } = checkValue<
      Record<'signs_13' | 'series_with_median_ties' | 'series_22', number[]>,
      Record<'signs_13' | 'series_with_median_ties' | 'series_22', Counts>,
      { signs_13: { crossings: number; longest: number } }
    >('runchart-counting');
    for (const name of ['signs_13', 'series_with_median_ties', 'series_22'] as const) {
      const centre = name === 'signs_13' ? 0 : median(input[name]);
      const { n, longest, crossings, median: expectedCentre } = expected[name];
      if (expectedCentre !== undefined) expect(centre).toBe(expectedCentre);
      expect(runChart(input[name], centre)).toMatchObject({ useful: n, longestRun: longest, crossings });
    }
    const { crossings, longest } = published.signs_13;
    expect(runChart(input.signs_13, 0)).toMatchObject({ crossings, longestRun: longest });
  });

  it('false signals by chance, counted over all sequences (compositions and Binomial(n − 1, 1/2))', () => {
    const { input, expected, tolerance } = checkValue<
      { n: number[] },
      { p_long_run: number[]; p_few_crossings: number[] }
    >('runchart-false-signal-exact');
    input.n.forEach((n, place) => {
      const { crossingsLimit } = runChart(alternating(n), 0);
      expectClose(binomialCdf(crossingsLimit - 1, n - 1, 0.5), expected.p_few_crossings[place]!, tolerance.abs!);
      if (n > 12) return;
      let longRuns = 0;
      let fewCrossings = 0;
      for (let bits = 0; bits < 2 ** n; bits++) {
        const chart = runChart(
          Array.from({ length: n }, (_, i) => ((bits >> i) & 1 ? 1 : -1)),
          0,
        );
        if (chart.longestRun > chart.longestRunLimit) longRuns++;
        if (chart.crossings < chart.crossingsLimit) fewCrossings++;
      }
      expectClose(longRuns / 2 ** n, expected.p_long_run[place]!, tolerance.abs!);
      expectClose(fewCrossings / 2 ** n, expected.p_few_crossings[place]!, tolerance.abs!);
    });
  });
});
