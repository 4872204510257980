import { drawInto, randomStream, type DrawUnits } from '../statistics';
import type { Work } from '../turns';
import type { StepFit } from './adjust-for-eye';
import type { ReferenceSamples } from './reference-samples';
import { refittedSummary } from './refitted-summary';
import { rankedDifference } from './step-point';
import { sortedSample, summarise, summariseLevel, type Level, type SortedSample, type Summary } from './sorted-sample';

export const views = ['seconds', 'spread', 'reference'] as const;
export type View = (typeof views)[number];

/** One step in the resamples; every array has one place a resample, NaN where no drawn list holds the step. */
export type StepDraws = {
  /** Median less 20th percentile: as recorded, or among the same kind of eye. */
  difference: Float64Array;
  logMad: Float64Array;
  referenceRatio: Float64Array;
  /** MAD of logs, mine less the reference set's. */
  referenceMad: Float64Array;
  /** How often first on each view; `null` where the step is not ranked on it. */
  first: Record<View, number | null>;
};

export type ResampleInput = {
  /** [step][case], adjusted seconds; and as recorded. */
  adjusted: readonly Float64Array[];
  recorded: readonly Float64Array[];
  /** For which steps the difference is among the same kind of eye; settled once, not in each resample. */
  apart: readonly boolean[];
  /** The fits to be redone inside each resample; `null` for steps whose adjustment stands. */
  refit: readonly (StepFit | null)[];
  units: DrawUnits;
  reference: ReferenceSamples | null;
  /** Which steps are ranked on which view. */
  ranked: readonly Record<View, boolean>[];
  seed: number;
  resamples: number;
};

/** Work between two pauses, in times looked at: about 5 ms on a laptop of 2020, so a slow machine stays under 50. */
const TIMES_A_SLICE = 1_000_000;
/** A refitted time costs about this many plain ones. */
const REFIT_COST = 60;

/**
 * All views of all steps in seeded resamples of lists, mine and the reference set's in the same draw. Each resample
 * has its own stream, so slices and the whole give the same numbers. Yields the share done.
 */
export function* resampleViews(input: ResampleInput): Work<StepDraws[]> {
  const { adjusted, recorded, apart, refit, units, reference, ranked, seed, resamples } = input;
  const samples = adjusted.map((values, step) => (refit[step] ? null : sortedSample(values, units.unit)));
  const asRecorded = recorded.map((values) => sortedSample(values, units.unit));
  const draws = adjusted.map((_, step) => emptyDraws(resamples, ranked[step]!));
  const counts = new Int32Array(units.count);
  const referenceCounts = new Int32Array(reference?.units.count ?? 0);
  const cost = costOf(samples, refit, reference);
  const mine: Summary = { median: NaN, p20: NaN, logMad: NaN };
  const theirs: Summary = { ...mine };
  const told: Level = { median: NaN, p20: NaN };
  let work = 0;
  for (let draw = 0; draw < resamples; draw += 1) {
    const stream = randomStream(seed, draw);
    drawInto(counts, stream);
    drawInto(referenceCounts, stream);
    for (let step = 0; step < draws.length; step += 1) {
      const into = draws[step]!;
      const sample = samples[step];
      const fit = refit[step];
      const there = sample
        ? summarise(sample, counts, mine)
        : fit !== null && fit !== undefined && refittedSummary(fit, units.unit, counts, mine);
      into.difference[draw] =
        there && summariseLevel(asRecorded[step]!, counts, told) ? rankedDifference(mine, told, apart[step]!) : NaN;
      into.logMad[draw] = there ? mine.logMad : NaN;
      const other = reference?.steps[step];
      if (!there || !other || !summarise(other.times, referenceCounts, theirs)) continue;
      into.referenceRatio[draw] = mine.median / theirs.median;
      if (other.within !== other.times) summarise(other.within, referenceCounts, theirs);
      into.referenceMad[draw] = mine.logMad - theirs.logMad;
    }
    countFirst(draws, draw);
    work += cost;
    if (work >= TIMES_A_SLICE) {
      work = 0;
      yield (draw + 1) / resamples;
    }
  }
  return draws;
}

function emptyDraws(resamples: number, ranked: Record<View, boolean>): StepDraws {
  const row = () => new Float64Array(resamples).fill(NaN);
  const from = (view: View) => (ranked[view] ? 0 : null);
  return {
    difference: row(),
    logMad: row(),
    referenceRatio: row(),
    referenceMad: row(),
    first: { seconds: from('seconds'), spread: from('spread'), reference: from('reference') },
  };
}

const byView = {
  seconds: (step: StepDraws) => step.difference,
  spread: (step: StepDraws) => step.logMad,
  reference: (step: StepDraws) => step.referenceRatio,
} satisfies Record<View, (step: StepDraws) => Float64Array>;

/** Ties go to the earlier step of the operation; a step absent from the resample is last, but the resample counts. */
function countFirst(draws: readonly StepDraws[], draw: number): void {
  for (const view of views) {
    let first: StepDraws | null = null;
    let largest = -Infinity;
    for (const step of draws) {
      if (step.first[view] === null) continue;
      const value = byView[view](step)[draw]!;
      if (value > largest) [first, largest] = [step, value];
    }
    if (first) first.first[view] = (first.first[view] ?? 0) + 1;
  }
}

function costOf(
  samples: readonly (SortedSample | null)[],
  refit: readonly (StepFit | null)[],
  reference: ReferenceSamples | null,
): number {
  const plain = samples.reduce((sum, sample) => sum + (sample?.list.length ?? 0), 0);
  const refitted = refit.reduce((sum, fit) => sum + (fit?.present.length ?? 0), 0);
  const theirs = reference?.steps.reduce((sum, step) => sum + 2 * (step?.n ?? 0), 0) ?? 0;
  return 2 * plain + REFIT_COST * refitted + theirs + 200;
}
