import { quantileOfSorted, robustScale, type RobustScale } from '../statistics';
import type { Step } from '../model';
import { auditThresholds } from './thresholds';
import type { Interval, StepTable } from './types';

/** What one step's adjusted times say before any resampling. Seconds; `null` where it cannot be said. */
export type StepPoint = {
  n: number;
  median: number | null;
  p20: number | null;
  /** Robust SD of ln(seconds), and how it was found: a MAD of 0 means most times are equal. */
  logScale: RobustScale | null;
};

export function stepPoint(adjusted: Float64Array): StepPoint {
  const sorted = adjusted.filter((value) => !Number.isNaN(value)).sort();
  const n = sorted.length;
  if (n === 0) return { n, median: null, p20: null, logScale: null };
  const few = n < auditThresholds.intervalFrom;
  return {
    n,
    median: quantileOfSorted(sorted, 0.5),
    p20: few ? null : quantileOfSorted(sorted, 0.2),
    logScale: few ? null : robustScale(sorted.map(Math.log)),
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
export function rankedOn(step: Step, { n, median, p20, logScale }: StepPoint, share: number, hasReference: boolean) {
  const enough = n >= auditThresholds.rankFrom && !step.retired;
  return {
    // Times that are all equal differ by nothing: among such steps the first of the operation would come first.
    seconds: enough && !step.notToShorten && median !== p20,
    spread: enough && !step.optional && share >= auditThresholds.spreadShare && logScale?.method === 'mad',
    reference: enough && hasReference && !step.notToShorten,
  };
}

/** A view with one ranked step has no first. */
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
