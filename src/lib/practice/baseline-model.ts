import { quantile, median, tQuantile } from '../statistics';
import { periodFit, standardError, type PeriodFit } from './period-fit';
import { meanOfParts, restOfOperation } from './rest-of-operation';
import { practiceThresholds as set } from './thresholds';

export type BaselineArrays = {
  /** ln seconds of the baseline cases in order of time, [step][case]; NaN where absent. */
  y: readonly Float64Array[];
  /** Facts of the eye, [column][case]. */
  columns: readonly Float64Array[];
  list: Int32Array;
};

export type BaselineModel = {
  /** ln step times, facts of the eye taken out, their median the recorded one, [step][case]. */
  adjusted: readonly Float64Array[];
  /** The same as recorded. */
  recorded: readonly Float64Array[];
  /** d of every step against its own rest, facts taken out, [step][case]. */
  differences: readonly Float64Array[];
  fits: ReadonlyMap<number, PeriodFit>;
};

/**
 * Every step of the baseline cases, adjusted for the eye, and against the rest of its own operations.
 * @param othersOf which steps may stand for the rest of a given one
 */
export function baselineModel(arrays: BaselineArrays, othersOf: (step: number) => readonly number[]): BaselineModel {
  const cases = arrays.list.length;
  const window = new Int32Array(cases);
  const all = [...arrays.y.keys()];
  const { fits, parts } = restOfOperation({ ...arrays, lead: [], window, windows: 0, others: all });
  const adjusted = arrays.y.map((own, step) => atRecordedMedian(fits.get(step)?.adjusted ?? own, own));
  const differences = adjusted.map((own, step) => {
    const rest = meanOfParts(
      othersOf(step).flatMap((other) => parts.get(other) ?? []),
      cases,
    );
    return own.map((value, at) => value - rest[at]!);
  });
  return { adjusted, recorded: arrays.y, differences, fits };
}

/** Adjusted ln times moved so that the median of their seconds is the recorded one. */
function atRecordedMedian(adjusted: Float64Array, recorded: Float64Array): Float64Array {
  const [own, as] = [medianAndP20(adjusted), medianAndP20(recorded)];
  if (!own || !as) return adjusted;
  const factor = Math.log(as.median / own.median);
  return adjusted.map((value) => value + factor);
}

/** Median and 20th percentile, in seconds, of ln times. `null` without cases. */
export function medianAndP20(adjusted: Float64Array): { median: number; p20: number } | null {
  const seconds = adjusted.filter(Number.isFinite).map(Math.exp);
  if (seconds.length === 0) return null;
  return { median: median(seconds), p20: quantile(seconds, 0.2) };
}

export type Trend = {
  /** Change of d a case, log scale. */
  slope: number;
  /** 95 % interval of the slope. */
  low: number;
  high: number;
  falling: boolean;
};

/** Was the step already getting shorter, against the rest? Slope of d over the cases in order, one-sided 90 %. */
export function trendOf(difference: Float64Array, columns: readonly Float64Array[], list: Int32Array): Trend | null {
  const order = Float64Array.from(difference, (_, at) => at);
  const fit = periodFit({ outcome: difference, lead: [order], columns, list });
  if (fit.kind === 'cannot') return null;
  const slope = fit.estimates[0]!;
  const se = standardError(fit, 0);
  const reach = tQuantile((1 + set.levelFirst) / 2, fit.df) * se;
  return {
    slope,
    low: slope - reach,
    high: slope + reach,
    falling: slope + tQuantile(set.fallingConfidence, fit.df) * se < 0,
  };
}
