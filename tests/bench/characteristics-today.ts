import { individualsLimits, mean, median, runChart, sampleSd, tCdf, wilcoxonRankSum } from '../../src/lib/statistics';
import type { SimulatedRecord } from './characteristics-simulate';

/** What people do today with the same seconds; each says "it changed" or not. */
export type Today = { mean: boolean; welch: boolean; rank: boolean; chart: boolean; chartEither: boolean };

/** The step's own seconds, start against the first window: what a spreadsheet shows. */
export function saidToday(record: SimulatedRecord, step: number): Today {
  const seconds = (period: number) =>
    [...record.y[step]!].filter((value, at) => record.window[at] === period && Number.isFinite(value)).map(Math.exp);
  const start = seconds(0);
  const window = seconds(1);
  return {
    mean: mean(window) <= 0.95 * mean(start),
    welch: welch(start, window) < 0.05,
    rank: wilcoxonRankSum(window, start).p < 0.05,
    chart: chartSaysShorter(start, window),
    chartEither: chartSignals(start, window),
  };
}

/** Welch's two-sample t test (Biometrika 1947;34:28), two-sided. */
function welch(a: readonly number[], b: readonly number[]): number {
  const va = sampleSd(a) ** 2 / a.length;
  const vb = sampleSd(b) ** 2 / b.length;
  const df = (va + vb) ** 2 / (va ** 2 / (a.length - 1) + vb ** 2 / (b.length - 1));
  return 2 * tCdf(-Math.abs(mean(a) - mean(b)) / Math.sqrt(va + vb), df);
}

/**
 * A run chart as common software draws it, limits and centre from the baseline cases. It says "shorter" by a window
 * point below the lower limit, eight points running below the centre, or the run rules of Anhøj and Olesen (PLoS ONE
 * 2014;9:e113825) over start and window with the window's median below the centre.
 */
function chartSaysShorter(start: readonly number[], window: readonly number[]): boolean {
  const limits = individualsLimits(start);
  const centre = median(start);
  const below = window.map((value) => value < centre);
  const eight = below.some((_, at) => at + 8 <= below.length && below.slice(at, at + 8).every(Boolean));
  return (
    eight ||
    (limits !== null && window.some((value) => value < limits.low)) ||
    (median(window) < centre && runChart([...start, ...window], centre).signal)
  );
}

/** The same chart asked only whether it signals at all, on either side of its centre: what "out of control" means. */
function chartSignals(start: readonly number[], window: readonly number[]): boolean {
  const limits = individualsLimits(start);
  const centre = median(start);
  const eight = (side: (value: number) => boolean) =>
    window.some((_, at) => at + 8 <= window.length && window.slice(at, at + 8).every(side));
  return (
    eight((value) => value < centre) ||
    eight((value) => value > centre) ||
    (limits !== null && window.some((value) => value < limits.low || value > limits.high)) ||
    runChart([...start, ...window], centre).signal
  );
}
