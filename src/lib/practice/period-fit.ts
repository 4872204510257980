import type { CannotFit } from '../model';
import { columnsCarried, huberRegression, intraclass, type FitProblem } from '../statistics';
import { cannot, type Cannot } from './cannot';
import { practiceThresholds as set } from './thresholds';

export type FitInput = {
  /** What is fitted, one value a case, log seconds; NaN where absent. */
  outcome: Float64Array;
  /** Columns judged (window indicators, or time): one value a case, never absent. Always fitted. */
  lead: readonly Float64Array[];
  /** Facts of the eye, in their order; as many are used as the cases carry. */
  columns: readonly Float64Array[];
  /** List of each case. */
  list: Int32Array;
};

/** A Huber regression with standard errors that allow for lists. Arrays are as long as the input, NaN where absent. */
export type PeriodFit = {
  kind: 'fit';
  /** One a lead column. */
  estimates: readonly number[];
  /** Of the estimates, design effect of lists included. */
  covariance: readonly (readonly number[])[];
  df: number;
  deff: number;
  scale: number;
  n: number;
  lists: number;
  /** n less the columns fitted. */
  freedom: number;
  intercept: number;
  residuals: Float64Array;
  /** Residuals cut at two scales. */
  clipped: Float64Array;
  /** The outcome with facts of the eye taken out: intercept + lead effects + residual. */
  adjusted: Float64Array;
  /** Coefficients of the facts used, in their order. */
  facts: readonly number[];
};

/**
 * Huber regression of the outcome on the lead columns and facts of the eye; standard errors × √deff with
 * `deff = 1 + (m0 − 1)·max(0, ICC)` of the clipped residuals by list (one-way analysis of variance); degrees of freedom
 * G − 1 − leads if lists differ at all (with many short lists Satterthwaite's), else n − p. (Huber and Ronchetti, Robust Statistics, 2009, ch. 7; Kish 1965 for
 * the design effect.) Errors: a returned case for too few cases, constant outcomes, a lead column that facts explain.
 */
export function periodFit({ outcome, lead, columns, list }: FitInput): PeriodFit | Cannot<CannotFit> {
  const present = indicesOf(outcome);
  const n = present.length;
  const carried = columnsCarried(n);
  const used = [...lead, ...columns.slice(0, carried)].map((column) => pick(column, present));
  const fit = huberRegression(used, pick(outcome, present));
  if (fit.kind === 'cannot') return cannot(NO_FIT[fit.because]);
  if (lead.some((_, index) => !fit.kept.includes(index))) return cannot({ code: 'not-told-apart' });
  const limit = set.clipScales * fit.scale;
  const clippedPresent = fit.residuals.map((value) => Math.max(-limit, Math.min(limit, value)));
  const groups = pick(list, present);
  const lists = new Set(groups).size;
  const { icc, deff: measured } = intraclass(clippedPresent, groups);
  const clustered = lists < n && Number.isFinite(icc) && icc > 0;
  const deff = clustered ? measured : 1;
  const leads = lead.length;
  const covariance = range(leads).map((row) =>
    range(leads).map((column) => fit.covariance[row + 1]![column + 1]! * deff),
  );
  if (covariance.some((row, index) => !(row[index]! > 0))) return cannot({ code: 'not-determined' });
  const estimates = fit.coefficients.slice(1, 1 + leads);
  return {
    kind: 'fit',
    estimates,
    covariance,
    df: clustered ? degreesOfFreedom(deff, lists, n, lists - 1 - leads, fit.n - fit.p) : fit.n - fit.p,
    deff,
    scale: fit.scale,
    n,
    lists,
    freedom: fit.n - fit.p,
    intercept: fit.coefficients[0]!,
    residuals: spread(fit.residuals, present, outcome.length),
    clipped: spread(clippedPresent, present, outcome.length),
    adjusted: spread(
      fit.residuals.map((value, row) =>
        estimates.reduce((sum, effect, index) => sum + effect * used[index]![row]!, value + fit.coefficients[0]!),
      ),
      present,
      outcome.length,
    ),
    facts: fit.coefficients.slice(1 + leads),
  };
}

/**
 * Of a variance that lies partly between lists (share s = (deff − 1)/deff, known from the lists) and partly within them
 * (known from the cases): Satterthwaite's 1/(s²/between + (1 − s)²/within), at most those of the cases, from 8 lists of
 * on average 6 cases or fewer; else the degrees of freedom of the lists alone, which is too few but never too many.
 */
export function degreesOfFreedom(deff: number, lists: number, n: number, between: number, within: number): number {
  const fewest = Math.max(1, between);
  const { lists: enough, casesAList } = set.satterthwaite;
  if (lists < enough || n / lists > casesAList) return fewest;
  const share = (deff - 1) / deff;
  return Math.min(within, 1 / (share ** 2 / fewest + (1 - share) ** 2 / within));
}

const NO_FIT: Record<FitProblem, CannotFit> = {
  'too-few': { code: 'too-few' },
  'no-variation': { code: 'no-variation' },
  'not-a-number': { code: 'not-a-number', what: 'fact' },
};

/** Standard error of one lead estimate, or of the difference of two (`other` less `index`). */
export function standardError(fit: PeriodFit, index: number, other?: number): number {
  const at = (row: number, column: number) => fit.covariance[row]![column]!;
  if (other === undefined) return Math.sqrt(at(index, index));
  return Math.sqrt(at(index, index) + at(other, other) - 2 * at(index, other));
}

export function indicesOf(values: Float64Array): Int32Array {
  const found: number[] = [];
  values.forEach((value, index) => {
    if (Number.isFinite(value)) found.push(index);
  });
  return Int32Array.from(found);
}

export function pick<T extends Float64Array | Int32Array>(values: T, at: Int32Array): T {
  const picked = values.slice(0, at.length);
  at.forEach((from, to) => {
    picked[to] = values[from]!;
  });
  return picked as T;
}

function spread(values: Float64Array, at: Int32Array, length: number): Float64Array {
  const all = new Float64Array(length).fill(NaN);
  at.forEach((to, from) => {
    all[to] = values[from]!;
  });
  return all;
}

const range = (length: number) => Array.from({ length }, (_, index) => index);
