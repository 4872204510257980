import type { EyeCaveat } from '../model';
import { casesForColumns, huberRegression, median } from '../statistics';
import { atOnce, type Work } from '../turns';
import type { StepCaveat } from './caveats';
import { factIdOf } from './eye-coding';
import { eyeColumns } from './eye-columns';
import { auditThresholds } from './thresholds';
import type { EyeColumns, StepTable } from './types';

/** The adjustment of one step: enough of it to take the eye out of other times, and to refit it inside a resample. */
export type StepFit = {
  /** Which columns of the eye were used. */
  used: readonly number[];
  /** One a used column, log scale. */
  coefficients: readonly number[];
  /** Cases in which the step is present, as places in the table. */
  present: Int32Array;
  /** [used column][present case] */
  design: readonly Float64Array[];
  /** ln(seconds) of the present cases. */
  log: Float64Array;
  residuals: Float64Array;
  scale: number;
  /** The factor that makes the median of the adjusted times the recorded one. */
  factor: number;
};

export type Adjusted = {
  /** [step][case], seconds; NaN where the step is absent. */
  adjusted: readonly Float64Array[];
  /** One a step; `null` where nothing could be taken out, and the times stand as they are. */
  fits: readonly (StepFit | null)[];
  eye: EyeColumns;
  /** What was left out of the adjustment, and why. */
  caveats: readonly (EyeCaveat | StepCaveat)[];
};

/**
 * Step times with the facts of the eye taken out: `c·exp(y − x·β)`, β by Huber regression of `y = ln(seconds)`
 * on centred facts, each step on its own (Huber, Robust Statistics, 1981, chapter 7). One factor c a step makes the
 * median of the adjusted times the recorded one: without it they are those of the centre of the facts, which no case
 * need be near. Fewer than 15 + 3p cases: fewer columns, down to none.
 *
 * @param eye the columns, if made before; of the same cases in the same order.
 */
export function adjustForEye(table: StepTable, eye: EyeColumns = eyeColumns(table, table.procedure)): Adjusted {
  return atOnce(adjusting(table, eye));
}

/** The same in pieces, a step at a time: yields the share done. */
export function* adjusting(table: StepTable, eye: EyeColumns): Work<Adjusted> {
  const caveats: (EyeCaveat | StepCaveat)[] = [...eye.caveats];
  const fits: (StepFit | null)[] = [];
  const adjusted: Float64Array[] = [];
  for (const [step, stepId] of table.stepIds.entries()) {
    const seconds = table.seconds[step]!;
    const { fit, caveat } = fitStep(seconds, eye);
    if (caveat) caveats.push({ ...caveat, step: labelOf(table, stepId) });
    fits.push(fit);
    adjusted.push(adjustedBy(seconds, eye, fit));
    yield (step + 1) / table.stepIds.length;
  }
  return { adjusted, fits, eye, caveats };
}

/** One step's times less what the eye adds; a copy of the times where there is no fit. */
export function adjustedBy(seconds: Float64Array, eye: Pick<EyeColumns, 'columns'>, fit: StepFit | null): Float64Array {
  if (!fit) return seconds.slice();
  return seconds.map((value, place) => {
    let eyeEffect = 0;
    for (let j = 0; j < fit.used.length; j += 1)
      eyeEffect += fit.coefficients[j]! * (eye.columns[fit.used[j]!]?.[place] ?? 0);
    return value * fit.factor * Math.exp(-eyeEffect);
  });
}

/** As long in the middle as before anything was taken out. */
function factorOf(log: Float64Array, design: readonly Float64Array[], coefficients: readonly number[]): number {
  const taken = log.map((value, at) =>
    Math.exp(coefficients.reduce((rest, effect, j) => rest - effect * design[j]![at]!, value)),
  );
  return median(log.map(Math.exp)) / median(taken);
}

type Unnamed<Caveat> = Caveat extends unknown ? Omit<Caveat, 'step'> : never;

/** The adjustment of one step; `caveat` says why columns are missing from it. */
function fitStep(
  seconds: Float64Array,
  eye: Pick<EyeColumns, 'names' | 'columns'>,
): { fit: StepFit | null; caveat: Unnamed<StepCaveat> | null } {
  const present = Int32Array.from([...seconds.keys()].filter((place) => !Number.isNaN(seconds[place])));
  const wanted = eye.columns.map((_, index) => index).filter((index) => differs(eye.columns[index]!, present));
  const used = wanted.slice(0, columnsFor(present.length, wanted, eye.names));
  const short = present.length > 0 && used.length < wanted.length;
  const caveat = short
    ? ({ code: 'adjusted-for-less', nothing: used.length === 0, cases: present.length } as const)
    : null;
  if (used.length === 0) return { fit: null, caveat };
  const design = used.map((index) => Float64Array.from(present, (place) => eye.columns[index]![place]!));
  const log = Float64Array.from(present, (place) => Math.log(seconds[place]!));
  const fitted = huberRegression(design, log);
  if (fitted.kind === 'cannot') return { fit: null, caveat: { code: 'not-adjusted', why: fitted.because } };
  const { residuals, scale } = fitted;
  const coefficients = fitted.coefficients.slice(1);
  const factor = factorOf(log, design, coefficients);
  return { fit: { used, coefficients, present, design, log, residuals, scale, factor }, caveat };
}

/** A column in which fewer than five of these cases stand apart says more about them than about the fact. */
function differs(column: Float64Array, present: Int32Array): boolean {
  const counts = new Map<number, number>();
  for (const place of present) counts.set(column[place]!, (counts.get(column[place]!) ?? 0) + 1);
  return present.length - Math.max(0, ...counts.values()) >= auditThresholds.levelCases;
}

/** How many leading columns n cases allow, never cutting through a fact. */
function columnsFor(n: number, wanted: readonly number[], names: readonly string[]): number {
  const factOf = (place: number) => factIdOf(names[wanted[place] ?? -1] ?? '');
  let count = wanted.length;
  while (count > 0 && (n < casesForColumns(count) || (count < wanted.length && factOf(count) === factOf(count - 1))))
    count -= 1;
  return count;
}

const labelOf = (table: StepTable, stepId: string) =>
  table.procedure.steps.find(({ id }) => id === stepId)?.label ?? stepId;
