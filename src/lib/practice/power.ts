import { HUBER_K, tCdf, tQuantile } from '../statistics';
import { upperTail } from './effect';
import { degreesOfFreedom, periodFit, type PeriodFit } from './period-fit';
import { practiceThresholds as set } from './thresholds';

export type Chance = {
  chance: number;
  low: number;
  high: number;
  tenths: number;
  word: 'likely' | 'even' | 'unlikely';
};
export type ChanceBySize = { twenty: Chance; forty: Chance };

export type Power = {
  /** Of reaching the lower end of the expected range; `null` where it is not known. */
  steer: ChanceBySize | null;
  tenth: ChanceBySize;
  fifth: ChanceBySize;
  /** Fewer than 40 baseline cases: say only likely, even, unlikely. */
  coarse: boolean;
};

export type PowerInput = {
  /** d of the baseline cases, facts of the eye not yet taken out or taken out; NaN where absent. */
  difference: Float64Array;
  columns: readonly Float64Array[];
  list: Int32Array;
  selectionAllowance: number;
  steer: number | null;
};

/**
 * Can twenty cases show it? `power = T_df((|δ| − opt)/SE − t_crit)` with `SE = τ·√deff·√(1/n_b + 1/n_w)`; τ the SD
 * that Huber's estimate behaves as if it had (√Σψ²/(n−p) ÷ share unclipped), which predicts the standard error of
 * the result better than the scale alone. The range comes from the interval of τ. `null` where d cannot be fitted.
 */
export function powerOf(input: PowerInput): Power | null {
  const fit = periodFit({ outcome: input.difference, lead: [], columns: input.columns, list: input.list });
  if (fit.kind === 'cannot') return null;
  const sizes = (change: number): ChanceBySize => ({
    twenty: chanceOf(fit, change, 20, input.selectionAllowance),
    forty: chanceOf(fit, change, 40, input.selectionAllowance),
  });
  return {
    steer: input.steer === null ? null : sizes(input.steer),
    tenth: sizes(Math.log(0.9)),
    fifth: sizes(Math.log(0.8)),
    coarse: fit.n < set.powerInTenthsFrom,
  };
}

/** Chance (0..1) that a window of `size` cases would have shown a fifth; `null` where the baseline cases do not tell. */
export function chanceOfFifth(
  start: { values: Float64Array; columns: readonly Float64Array[]; list: Int32Array },
  size: number,
  selectionAllowance: number,
): number | null {
  const fit = periodFit({ outcome: start.values, lead: [], columns: start.columns, list: start.list });
  return fit.kind === 'cannot' ? null : chanceOf(fit, Math.log(0.8), size, selectionAllowance).chance;
}

/** Chance that a window of `size` cases shows a change of `change` (log scale). */
function chanceOf(fit: PeriodFit, change: number, size: number, selectionAllowance: number): Chance {
  const lists = fit.lists + Math.max(set.windowLists, Math.round((size * fit.lists) / fit.n));
  const within = fit.freedom + size - 1;
  const df = fit.deff > 1 ? degreesOfFreedom(fit.deff, lists, fit.n + size, lists - 2, within) : within;
  const critical = tQuantile(upperTail('first'), df);
  const perUnit = Math.sqrt(fit.deff * (1 / fit.n + 1 / size));
  const at = (spread: number) => tCdf((Math.abs(change) - selectionAllowance) / (spread * perUnit) - critical, df);
  const spread = huberSpread(fit);
  const reach = Math.exp((1.96 * set.spreadError) / Math.sqrt(2 * fit.freedom));
  const chance = at(spread);
  return {
    chance,
    low: at(spread * reach),
    high: at(spread / reach),
    tenths: Math.round(chance * 10),
    word: chance >= 2 / 3 ? 'likely' : chance > 1 / 3 ? 'even' : 'unlikely',
  };
}

function huberSpread(fit: PeriodFit): number {
  const limit = HUBER_K * fit.scale;
  let sum = 0;
  let within = 0;
  for (const value of fit.residuals) {
    if (!Number.isFinite(value)) continue;
    sum += Math.min(Math.abs(value), limit) ** 2;
    if (Math.abs(value) < limit) within += 1;
  }
  return Math.sqrt(sum / fit.freedom) / (within / fit.n);
}
