import { auditThresholds } from '../audit';
import { sortedSample } from '../audit/sorted-sample';
import { drawListCounts, drawUnits, huberLocation, mad, median } from '../statistics';
import type { Work } from '../turns';
import { viewValue, type PickedOn } from './resampled-view';
import { practiceThresholds as set } from './thresholds';

export type SelectionAllowanceInput = {
  /** ln step times of the baseline cases, facts of the eye taken out, [step][case]; NaN where absent. */
  adjusted: readonly Float64Array[];
  /** The same as recorded. */
  recorded: readonly Float64Array[];
  /** A step a step: a fact of the eye shows for it, so seconds are ranked among the same kind of eye. None without it. */
  apart?: readonly boolean[];
  /** d of every step against its own rest, [step][case]; NaN where it cannot be formed. */
  differences: readonly Float64Array[];
  /** Steps the view could have named, in the order of the operation. */
  candidates: readonly number[];
  view: PickedOn;
  /** Median seconds of each step in the reference set; NaN without one. */
  referenceMedians: Float64Array;
  list: Int32Array;
  seed: number;
  resamples?: number;
};

/** A few milliseconds. */
const RESAMPLES_A_SLICE = 50;

export type SelectionAllowance = { time: number; spread: number };

/**
 * How much of the baseline is owed to the step having been picked. A step that stands out does so partly by chance, and
 * would come down by itself: in each resample of the lists the view picks a step, and how much longer (or more varied)
 * that step is in the resample than in the record shows how much of its standing out is luck. 1.5 × the mean, not below
 * 0. (The bootstrap correction of optimism, Efron and Tibshirani, An Introduction to the Bootstrap, 1993, ch. 17.)
 * Choosing by the resample's point values; ties go to the earlier step. Below six lists cases are resampled singly.
 * Hands over after every fifty resamples with the share done, 0..1.
 */
export function* allowingForSelection(input: SelectionAllowanceInput): Work<SelectionAllowance> {
  const { unit: list, count: groups } = drawUnits(input.list, auditThresholds.listsToDraw);
  const sample = (log: Float64Array | undefined) => sortedSample((log ?? new Float64Array(0)).map(Math.exp), list);
  const steps = input.candidates.map((step) => ({
    adjusted: sample(input.adjusted[step]),
    recorded: sample(input.recorded[step]),
    apart: input.apart?.[step] ?? false,
  }));
  const atStart = input.candidates.map((step) => standing(input.differences[step] ?? new Float64Array(0), null, list));
  const gains = { time: 0, spread: 0, counted: 0 };
  const resamples = input.resamples ?? set.selectionAllowanceResamples;
  for (let resample = 0; resample < resamples; resample += 1) {
    if (resample % RESAMPLES_A_SLICE === 0) yield resample / resamples;
    const counts = drawListCounts(groups, resample, input.seed);
    const chosen = firstOn(
      steps.map((step, at) =>
        viewValue(step, counts, input.view, input.referenceMedians[input.candidates[at] ?? -1] ?? NaN),
      ),
    );
    const step = chosen === null ? undefined : input.candidates[chosen];
    const before = chosen === null ? null : atStart[chosen];
    const now = step === undefined ? null : standing(input.differences[step] ?? new Float64Array(0), counts, list);
    if (!before || !now) continue;
    gains.time += now.location - before.location;
    gains.spread += now.logSpread - before.logSpread;
    gains.counted += 1;
  }
  return allowanceFrom(gains);
}

/** From the summed gains of the resamples in which something was picked. */
export function allowanceFrom({ time, spread, counted }: SelectionAllowance & { counted: number }): SelectionAllowance {
  const allowed = (sum: number) => (counted === 0 ? 0 : set.selectionAllowanceFactor * Math.max(0, sum / counted));
  return { time: allowed(time), spread: allowed(spread) };
}

function firstOn(values: readonly number[]): number | null {
  let first: number | null = null;
  values.forEach((value, at) => {
    if (value > (first === null ? -Infinity : (values[first] ?? -Infinity))) first = at;
  });
  return first;
}

/** Level and log spread of the present values, each as often as its list was drawn (`null`: once). */
export function standing(
  values: Float64Array,
  counts: Int32Array | null,
  list: Int32Array,
): { location: number; logSpread: number } | null {
  const drawn: number[] = [];
  values.forEach((value, at) => {
    if (!Number.isFinite(value)) return;
    for (let copy = counts ? counts[list[at]!]! : 1; copy > 0; copy -= 1) drawn.push(value);
  });
  if (drawn.length < 3) return null;
  const middle = median(drawn);
  const cut = set.steadierCut * mad(drawn);
  const spread = drawn.reduce((sum, value) => sum + Math.min(Math.abs(value - middle), cut), 0) / drawn.length;
  return spread > 0 ? { location: huberLocation(drawn).location, logSpread: Math.log(spread) } : null;
}
