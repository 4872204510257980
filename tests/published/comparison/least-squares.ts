import { Matrix, QrDecomposition } from 'ml-matrix';
import { covarianceInCallersUnits, designMatrix, inCallersUnits } from '../../../src/lib/statistics/design-matrix';
import { problemWithData, type FitProblem } from '../../../src/lib/statistics/fit-problem';

export type LeastSquaresFit = {
  kind: 'fit';
  /** Intercept first, then one a column given; 0 for a column left out. */
  coefficients: number[];
  /** In the same order; NaN for a column left out. */
  se: number[];
  covariance: number[][];
  /** Residual SD, divisor n − p. */
  scale: number;
  n: number;
  /** Coefficients estimated, the intercept among them. */
  p: number;
  fitted: Float64Array;
  residuals: Float64Array;
  kept: number[];
};

/**
 * Ordinary least squares with an intercept, by QR of centred and scaled columns (checked against NIST's certified fits).
 * For comparison and for data without outliers; step times go through `huberRegression`.
 * @param columns one array a column, WITHOUT the intercept, each as long as y; constant and collinear ones are left out
 * @returns `cannot` for no more cases than coefficients or a value that is not a number
 * @throws when columns and y differ in length
 */
export function leastSquares(
  columns: readonly Float64Array[],
  y: Float64Array,
): LeastSquaresFit | { kind: 'cannot'; because: FitProblem } {
  const problem = problemWithData('leastSquares', columns, y);
  if (problem) return { kind: 'cannot', because: problem };
  const n = y.length;
  const design = designMatrix(columns, n);
  const p = design.columns.length + 1;
  if (n <= p) return { kind: 'cannot', because: 'too-few' };

  const matrix = new Matrix(n, p);
  for (let i = 0; i < n; i++) matrix.set(i, 0, 1);
  design.columns.forEach((column, j) => column.forEach((value, i) => matrix.set(i, j + 1, value)));
  const beta = Float64Array.from(new QrDecomposition(matrix).solve(Matrix.columnVector(Array.from(y))).to1DArray());

  const fitted = new Float64Array(n).fill(beta[0]!);
  design.columns.forEach((column, j) => column.forEach((value, i) => (fitted[i] = fitted[i]! + beta[j + 1]! * value)));
  const residuals = y.map((value, i) => value - fitted[i]!);
  const variance = residuals.reduce((sum, r) => sum + r * r, 0) / (n - p);
  const covariance = covarianceInCallersUnits(design, variance, columns.length);
  return {
    kind: 'fit',
    coefficients: inCallersUnits(design, beta, columns.length),
    se: covariance.map((row, j) => Math.sqrt(row[j]!)),
    covariance,
    scale: Math.sqrt(variance),
    n,
    p,
    fitted,
    residuals,
    kept: design.kept,
  };
}
