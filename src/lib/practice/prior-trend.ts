import type { ChangeInput } from './change';
import { trendOf } from './baseline-model';

/** The baseline cases of some arrays: they come first, in order of time. */
export function baselinePart(input: Pick<ChangeInput, 'window' | 'columns' | 'list'>, values: Float64Array) {
  const at = [...input.window.keys()].filter((place) => input.window[place] === 0);
  const part = (row: Float64Array) => Float64Array.from(at, (place) => row[place]!);
  return {
    values: part(values),
    columns: input.columns.map(part),
    list: Int32Array.from(at, (place) => input.list[place]!),
  };
}

/** What going on as before would have given in the window, with its 95 % interval; log scale. */
export type PriorTrend = { change: number; low: number; high: number };

/**
 * "As it was already doing": where d fell over the baseline cases (one-sided 90 %), what going on at the same rate
 * would have given in the window; log scale, below 0. `null` where it did not fall.
 */
export function priorTrend(difference: Float64Array, input: ChangeInput): PriorTrend | null {
  const start = baselinePart(input, difference);
  const trend = trendOf(start.values, start.columns, start.list);
  if (!trend?.falling) return null;
  const middle = (period: number) => {
    const places = [...input.window.keys()].filter((at) => input.window[at] === period);
    return places.reduce((sum, at) => sum + at, 0) / places.length;
  };
  const gap = middle(1) - middle(0);
  return { change: trend.slope * gap, low: trend.low * gap, high: trend.high * gap };
}
