import { choleskyInPlace, solveFactored } from './cholesky';
import { covarianceInCallersUnits, designMatrix, inCallersUnits } from './design-matrix';
import { problemWithData, type FitProblem } from './fit-problem';
import { HUBER_K } from './huber-location';
import { MAD_CONSTANT } from './mad';
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

/** A scale this small beside y is rounding of the machine. */
const ROUNDING = 1e-12;

/**
 * Robust regression: a straight-line fit in which outlying cases pull no harder than those at k scales.
 * Huber's M-estimate by reweighted least squares from the least-squares start, scale = median|residual| / 0.6745
 * re-estimated in each step (Qn, then SD, where rounded times make it 0).
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

  const residuals = Float64Array.from(y);
  const weights = new Float64Array(n).fill(1);
  const scratch = new Float64Array(n);
  const gram = new Float64Array(p * p);
  const move = new Float64Array(p);
  const beta = new Float64Array(p);
  let scale = Infinity;
  let converged = false;

  for (let step = 0; step <= maxSteps; step++) {
    // Each step solves for the change in the coefficients from the present residuals, which loses fewer digits.
    if (!weightedStep(x, residuals, weights, gram, move, scratch)) break;
    let largestMove = 0;
    for (let j = 0; j < p; j++) {
      beta[j] = beta[j]! + move[j]!;
      largestMove = Math.max(largestMove, Math.abs(move[j]!));
    }
    const shift = move[0]!;
    for (let i = 0; i < n; i++) residuals[i] = residuals[i]! - shift;
    for (let j = 1; j < p; j++) {
      const slope = move[j]!;
      const column = x[j - 1]!;
      for (let i = 0; i < n; i++) residuals[i] = residuals[i]! - slope * column[i]!;
    }
    // Step 0 is least squares with all weights 1.
    if (step > 0 && largestMove <= tolerance * scale) {
      converged = true;
    }
    for (let i = 0; i < n; i++) scratch[i] = Math.abs(residuals[i]!);
    scale = MAD_CONSTANT * medianInPlace(scratch, n);
    if (!(scale > nothing)) scale = robustScale(residuals)?.scale ?? 0;
    if (!(scale > nothing)) return { kind: 'cannot', because: 'no-variation' };
    const reach = k * scale;
    for (let i = 0; i < n; i++) {
      const size = Math.abs(residuals[i]!);
      weights[i] = size <= reach ? 1 : reach / size;
    }
    if (converged) break;
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

/**
 * Weighted normal equations of (1, x) against the residuals; the solution is left in `move`. Nothing is allocated here.
 * @returns false when the weighted columns are not independent
 */
function weightedStep(
  x: readonly Float64Array[],
  residuals: Float64Array,
  weights: Float64Array,
  gram: Float64Array,
  move: Float64Array,
  weighted: Float64Array,
): boolean {
  const n = residuals.length;
  const p = x.length + 1;
  let total = 0;
  let against = 0;
  for (let i = 0; i < n; i++) {
    total += weights[i]!;
    against += weights[i]! * residuals[i]!;
  }
  gram[0] = total;
  move[0] = against;
  for (let j = 1; j < p; j++) {
    const column = x[j - 1]!;
    let sum = 0;
    let product = 0;
    for (let i = 0; i < n; i++) {
      const value = weights[i]! * column[i]!;
      weighted[i] = value;
      sum += value;
      product += value * residuals[i]!;
    }
    gram[j * p] = sum;
    move[j] = product;
    for (let l = 1; l <= j; l++) {
      const other = x[l - 1]!;
      let cross = 0;
      for (let i = 0; i < n; i++) cross += weighted[i]! * other[i]!;
      gram[j * p + l] = cross;
    }
  }
  if (choleskyInPlace(gram, p) === 0) return false;
  solveFactored(gram, p, move);
  return true;
}
