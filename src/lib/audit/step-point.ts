import { quantileOfSorted, robustScale, type RobustScale } from '../statistics';
import type { Step } from '../model';
import type { Level } from './sorted-sample';
import { auditThresholds } from './thresholds';
import type { Interval, StepTable } from './types';

/** What one step's times say before any resampling. Seconds; `null` where it cannot be said. */
export type StepPoint = {
  n: number;
  /** As recorded: a surgeon who counts can confirm them. */
  median: number | null;
  p20: number | null;
  twoThirds: Interval | null;
  /** Median less 20th percentile by which the step is ranked: among the same kind of eye where it is split. */
  ranked: number | null;
  /** 20th percentile of the adjusted times, whose median is the recorded one. */
  adjustedP20: number | null;
  /** Robust SD of ln(seconds), and how it was found: a MAD of 0 means most times are equal. */
  logScale: RobustScale | null;
};

/**
 * Median less 20th percentile, seconds: of the times as recorded, or, where a fact of the eye shows for the step
 * (`apart`), among the same kind of eye: of adjusted times on the scale on which their median is the recorded one.
 */
export const rankedDifference = (adjusted: Level, recorded: Level, apart: boolean): number =>
  apart ? (adjusted.median - adjusted.p20) * (recorded.median / adjusted.median) : recorded.median - recorded.p20;

export function stepPoint(adjusted: Float64Array, recorded: Float64Array, apart: boolean): StepPoint {
  const rising = (values: Float64Array) => values.filter((value) => !Number.isNaN(value)).sort();
  const [own, taken] = [rising(recorded), rising(adjusted)];
  const n = own.length;
  const nothing = { p20: null, twoThirds: null, ranked: null, adjustedP20: null, logScale: null };
  if (n === 0) return { n, median: null, ...nothing };
  const level = (values: Float64Array): Level => ({
    median: quantileOfSorted(values, 0.5),
    p20: quantileOfSorted(values, 0.2),
  });
  const [as, adjustedLevel] = [level(own), level(taken)];
  if (n < auditThresholds.intervalFrom) return { n, median: as.median, ...nothing };
  return {
    n,
    ...as,
    twoThirds: { low: quantileOfSorted(own, 1 / 6), high: quantileOfSorted(own, 5 / 6) },
    ranked: rankedDifference(adjustedLevel, as, apart),
    adjustedP20: adjustedLevel.p20,
    logScale: robustScale(taken.map(Math.log)),
  };
}

/** The middle 95 % of resampled values; `null` where fewer than half the resamples have one, or from too few cases. */
export function intervalOf(
  draws: Float64Array,
  n: number,
  as: (value: number) => number = (value) => value,
): Interval | null {
  const known = draws.filter((value) => !Number.isNaN(value)).sort();
  if (n < auditThresholds.intervalFrom || known.length === 0 || known.length < draws.length / 2) return null;
  return { low: as(quantileOfSorted(known, 0.025)), high: as(quantileOfSorted(known, 0.975)) };
}

/** Mean of the values that are there; `null` where none is. */
export function meanOf(values: Float64Array): number | null {
  const known = values.filter((value) => !Number.isNaN(value));
  return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0) / known.length;
}

/** On which views a step is ranked: too few cases, a step the view says nothing useful about, or a retired one is not. */
export function rankedOn(step: Step, { n, ranked, logScale }: StepPoint, share: number, hasReference: boolean) {
  const enough = n >= auditThresholds.rankFrom && !step.retired;
  return {
    // Times that are all equal differ by nothing: among such steps the first of the operation would come first.
    seconds: enough && !step.notToShorten && ranked !== 0,
    spread: enough && !step.optional && share >= auditThresholds.spreadShare && logScale?.method === 'mad',
    reference: enough && hasReference && !step.notToShorten,
  };
}

/** A view with one ranked step has nothing to rank first. */
export function onlyWhereTwo<Ranked extends Record<string, boolean>>(ranked: readonly Ranked[]): Ranked[] {
  const counts = new Map<string, number>();
  for (const step of ranked)
    for (const [view, is] of Object.entries(step)) if (is) counts.set(view, (counts.get(view) ?? 0) + 1);
  return ranked.map((step) => ({
    ...step,
    ...Object.fromEntries(Object.entries(step).map(([view, is]) => [view, is && (counts.get(view) ?? 0) > 1])),
  }));
}

export function stepOf(table: StepTable, stepId: string): Step {
  const step = table.procedure.steps.find(({ id }) => id === stepId);
  if (!step) throw new Error(`stepOf: the table holds "${stepId}", which the procedure does not have`);
  return step;
}

/** In how many cases a step was returned to, of those where that is known; `values`: times a case, NaN where not known. */
export function returnedToIn(values: Float64Array): { cases: number; of: number; perCase: number } | null {
  const known = values.filter((value) => !Number.isNaN(value));
  const perCase = meanOf(values);
  return perCase === null ? null : { cases: known.filter((value) => value > 0).length, of: known.length, perCase };
}
