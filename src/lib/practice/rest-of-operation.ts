import { periodFit, type FitInput, type PeriodFit } from './period-fit';
import { practiceThresholds as set } from './thresholds';

export type RestInput = Omit<FitInput, 'outcome'> & {
  /** ln seconds, [step][case]; NaN where absent. */
  y: readonly Float64Array[];
  /** Indices of the steps that may stand for the rest. */
  others: readonly number[];
  /** Period of each case: 0 for baseline cases, 1 … for windows. */
  window: Int32Array;
  windows: number;
};

export type Rest = {
  /**
   * r_i: how much longer than expected the other steps of case i took, log scale; NaN with fewer than three of them.
   */
  values: Float64Array;
  /** Each step's own contribution g_ij, [step][case]. */
  parts: ReadonlyMap<number, Float64Array>;
  fits: ReadonlyMap<number, PeriodFit>;
};

/**
 * The built-in comparison: my other steps of the same case. Each other step is fitted on facts of the eye AND the
 * window indicators; r_i is the plain mean over steps of the clipped residual plus the step's fitted window effect.
 * Rejected: clipping round a common level (13 to 43 % wrong when the whole operation drifts); a coefficient other
 * than 1 for r (11 to 28 % wrong); a weighted mean (follows single steps that changed by themselves).
 */
export function restOfOperation(input: RestInput): Rest {
  const parts = new Map<number, Float64Array>();
  const fits = new Map<number, PeriodFit>();
  for (const step of input.others) {
    const outcome = input.y[step];
    if (!outcome || !inEveryPeriod(outcome, input.window, input.windows)) continue;
    const fit = periodFit({ outcome, lead: input.lead, columns: input.columns, list: input.list });
    if (fit.kind === 'cannot') continue;
    fits.set(step, fit);
    parts.set(
      step,
      fit.clipped.map((value, at) =>
        fit.estimates.reduce((sum, effect, index) => sum + effect * input.lead[index]![at]!, value),
      ),
    );
  }
  return { values: meanOfParts([...parts.values()], input.window.length), parts, fits };
}

/** Plain mean over the parts present in each case; NaN with fewer than three. */
export function meanOfParts(parts: readonly Float64Array[], cases: number): Float64Array {
  return Float64Array.from({ length: cases }, (_, at) => {
    let sum = 0;
    let count = 0;
    for (const part of parts) {
      const value = part[at]!;
      if (!Number.isFinite(value)) continue;
      sum += value;
      count += 1;
    }
    return count >= set.otherSteps ? sum / count : NaN;
  });
}

function inEveryPeriod(outcome: Float64Array, window: Int32Array, windows: number): boolean {
  const counts = new Int32Array(windows + 1);
  outcome.forEach((value, at) => {
    const period = window[at]!;
    if (Number.isFinite(value)) counts[period] = counts[period]! + 1;
  });
  return counts.every((count) => count >= set.restCasesEachPeriod);
}
