import { choleskyInPlace, solveFactored } from './cholesky';
import { covarianceInCallersUnits, designMatrix, inCallersUnits } from './design-matrix';
import { problemWithData, type FitProblem } from './fit-problem';
import { HUBER_K } from './huber-location';
import { robustScale } from './robust-scale';
import { medianInPlace } from './select';

export type HuberOptions = {
  /** Residuals beyond k scales are held at k scales. */
  k?: number;
  maxSteps?: number;
  /** Stop when no coefficient (per SD of its column) moves by more than this share of the scale. */
  tolerance?: number;
};

export type HuberFit = {
  kind: 'fit';
  /** Intercept first, then one a column given; 0 for a column left out. */
  coefficients: number[];
  /** In the same order; NaN for a column left out. */
  se: number[];
  covariance: number[][];
  /** Robust SD of the residuals, in the unit of y. */
  scale: number;
  n: number;
  /** Coefficients estimated, the intercept among them. */
  p: number;
  /** Share of cases with a residual within k scales. */
  m: number;
  fitted: Float64Array;
  residuals: Float64Array;
  /** 1 for cases taken at full weight, less for outlying ones. */
  weights: Float64Array;
  /** Places of the columns that were used. */
  kept: number[];
  converged: boolean;
};

/** Φ⁻¹(3/4) as rounded in MASS::rlm, so that published fits agree digit by digit; the seventh digit of `mad` differs. */
const MEDIAN_OF_NORMAL = 0.6745;

/** A scale this small beside y is rounding of the machine. */
const ROUNDING = 1e-12;

/**
 * Robust regression: a straight-line fit in which outlying cases pull no harder than those at k scales.
 * Huber's M-estimate by reweighted least squares from the least-squares start, scale = median|residual| / 0.6745
 * re-estimated in each step (`robustScale` where rounded times make it 0).
 * Standard errors: K² · Σψ²/(n − p) / m² · (XᵀX)⁻¹ with K = 1 + p(1 − m)/(n m) (Huber, Robust Statistics 1981, ch. 7;
 * MASS::rlm divides the variance of ψ′ by n − 1 where this uses n). For independent cases; lists are the caller's matter.
 * @param columns one array a column, WITHOUT the intercept, each as long as y; constant and collinear ones are left out
 * @param y what is explained, any unit
 * @returns `cannot` for no more cases than coefficients, values that do not vary, or a value that is not a number
 * @throws when columns and y differ in length
 */
export function huberRegression(
  columns: readonly Float64Array[],
  y: Float64Array,
  { k = HUBER_K, maxSteps = 50, tolerance = 1e-8 }: HuberOptions = {},
): HuberFit | { kind: 'cannot'; because: FitProblem } {
  const problem = problemWithData('huberRegression', columns, y);
  if (problem) return { kind: 'cannot', because: problem };
  const n = y.length;
  const design = designMatrix(columns, n);
  const x = design.columns;
  const p = x.length + 1;
  if (n <= p) return { kind: 'cannot', because: 'too-few' };

  let largest = 0;
  for (let i = 0; i < n; i++) largest = Math.max(largest, Math.abs(y[i]!));
  const nothing = ROUNDING * largest;

  const rows = inRows(x, n);
  const full = new Float64Array(p * p);
  for (let i = 0; i < n; i++) addOuter(full, rows, i, p, 1);

  const residuals = Float64Array.from(y);
  const weights = new Float64Array(n).fill(1);
  const scratch = new Float64Array(n);
  const gram = new Float64Array(p * p);
  const move = new Float64Array(p);
  const beta = new Float64Array(p);
  let scale = Infinity;
  let converged = false;

  for (let step = 0; step <= maxSteps && !converged; step++) {
    // Step 0 is least squares. Each step solves for the change from the present residuals: fewer digits are lost.
    normalEquations(rows, residuals, weights, full, gram, move);
    if (choleskyInPlace(gram, p) === 0) break;
    solveFactored(gram, p, move);
    let largestMove = 0;
    for (let j = 0; j < p; j++) {
      beta[j] = beta[j]! + move[j]!;
      largestMove = Math.max(largestMove, Math.abs(move[j]!));
    }
    converged = step > 0 && largestMove <= tolerance * scale;

    for (let i = 0; i < n; i++) {
      let residual = residuals[i]!;
      for (let j = 0; j < p; j++) residual -= move[j]! * rows[i * p + j]!;
      residuals[i] = residual;
      scratch[i] = Math.abs(residual);
    }
    scale = medianInPlace(scratch, n) / MEDIAN_OF_NORMAL;
    if (!(scale > nothing)) scale = robustScale(residuals)?.scale ?? 0;
    if (!(scale > nothing)) return { kind: 'cannot', because: 'no-variation' };
    const reach = k * scale;
    for (let i = 0; i < n; i++) {
      const size = Math.abs(residuals[i]!);
      weights[i] = size <= reach ? 1 : reach / size;
    }
  }

  const reach = k * scale;
  let within = 0;
  let psiSquares = 0;
  for (let i = 0; i < n; i++) {
    const size = Math.abs(residuals[i]!);
    if (size < reach) within++;
    psiSquares += Math.min(size, reach) ** 2;
  }
  const m = within / n;
  const correction = 1 + (p * (1 - m)) / (n * m);
  const factor = (correction ** 2 * psiSquares) / (n - p) / m ** 2;
  const covariance = covarianceInCallersUnits(design, factor, columns.length);
  const fitted = new Float64Array(n);
  for (let i = 0; i < n; i++) fitted[i] = y[i]! - residuals[i]!;
  return {
    kind: 'fit',
    coefficients: inCallersUnits(design, beta, columns.length),
    se: covariance.map((row, j) => Math.sqrt(row[j]!)),
    covariance,
    scale,
    n,
    p,
    m,
    fitted,
    residuals,
    weights,
    kept: design.kept,
    converged,
  };
}

/** The design with its intercept, case by case: the loops of a step then run along the memory. */
function inRows(columns: readonly Float64Array[], n: number): Float64Array {
  const p = columns.length + 1;
  const rows = new Float64Array(n * p);
  for (let i = 0; i < n; i++) rows[i * p] = 1;
  columns.forEach((column, j) => {
    for (let i = 0; i < n; i++) rows[i * p + j + 1] = column[i]!;
  });
  return rows;
}

/** Add `share` times the products of one case's row with itself, lower part only. */
function addOuter(gram: Float64Array, rows: Float64Array, i: number, p: number, share: number): void {
  const start = i * p;
  for (let j = 0; j < p; j++) {
    const value = share * rows[start + j]!;
    for (let l = 0; l <= j; l++) gram[j * p + l] = gram[j * p + l]! + value * rows[start + l]!;
  }
}

/**
 * Weighted normal equations for the change in the coefficients, left in `gram` and `move`; nothing is allocated.
 * Four cases in five keep weight 1, so what the others lose is taken off the unweighted products, formed once.
 */
function normalEquations(
  rows: Float64Array,
  residuals: Float64Array,
  weights: Float64Array,
  full: Float64Array,
  gram: Float64Array,
  move: Float64Array,
): void {
  const p = move.length;
  gram.set(full);
  move.fill(0);
  for (let i = 0; i < residuals.length; i++) {
    const weight = weights[i]!;
    const pull = weight * residuals[i]!;
    for (let j = 0; j < p; j++) move[j] = move[j]! + pull * rows[i * p + j]!;
    if (weight < 1) addOuter(gram, rows, i, p, weight - 1);
  }
}
