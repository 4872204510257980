import { Matrix, QrDecomposition } from 'ml-matrix';
import { choleskyInPlace, inverseFactored } from './cholesky';

/** Columns made ready for a fit: centred, divided by their SD, constant and collinear ones left out. */
export type DesignMatrix = {
  n: number;
  /** Places in the caller's list of the columns that carry something of their own. */
  kept: number[];
  /** Centred and scaled, one array a kept column. */
  columns: Float64Array[];
  centres: number[];
  scales: number[];
};

/** A column whose spread is rounding of the machine beside its size is constant. */
const CONSTANT = 1e-12;

/**
 * A column with less than this share of its own left beside the columns before it is collinear. R uses 1e-7; the
 * normal equations square it, and 1e-5 keeps six digits there. Facts of an eye are nowhere near either.
 */
const COLLINEAR = 1e-5;

/** Above this smallest Cholesky pivot (a square) every column is far from collinear and QR could not find otherwise. */
const SURELY_INDEPENDENT = 1e-6;

/**
 * Which columns can be estimated, in the order given: the later of two that say the same is left out.
 * Rank is read from a QR decomposition, as R's lm does. A Cholesky factor of the correlations has the same diagonal
 * as R, to rounding, and takes a twentieth of the time; QR is asked whenever that leaves any doubt.
 * @param columns all of length n, without the intercept, finite numbers
 */
export function designMatrix(columns: readonly Float64Array[], n: number): DesignMatrix {
  const design: DesignMatrix = { n, kept: [], columns: [], centres: [], scales: [] };
  columns.forEach((column, index) => {
    let sum = 0;
    let largest = 0;
    for (let i = 0; i < n; i++) {
      sum += column[i]!;
      largest = Math.max(largest, Math.abs(column[i]!));
    }
    const centre = sum / n;
    let squares = 0;
    for (let i = 0; i < n; i++) squares += (column[i]! - centre) ** 2;
    const scale = Math.sqrt(squares / n);
    if (!(scale > CONSTANT * largest)) return;
    const ready = new Float64Array(n);
    for (let i = 0; i < n; i++) ready[i] = (column[i]! - centre) / scale;
    design.kept.push(index);
    design.columns.push(ready);
    design.centres.push(centre);
    design.scales.push(scale);
  });
  if (design.columns.length > 1 && !surelyIndependent(design)) keepIndependent(design);
  return design;
}

function surelyIndependent({ columns, n }: DesignMatrix): boolean {
  const p = columns.length;
  if (n <= p) return false;
  const correlations = new Float64Array(p * p);
  for (let i = 0; i < p; i++)
    for (let j = 0; j <= i; j++) correlations[i * p + j] = dot(columns[i]!, columns[j]!, n) / n;
  return choleskyInPlace(correlations, p) > SURELY_INDEPENDENT;
}

/** Take out one collinear column at a time: after the first, later diagonal entries of R mean nothing. */
function keepIndependent(design: DesignMatrix): void {
  for (;;) {
    const p = design.columns.length;
    const rows = Math.max(design.n, p);
    const matrix = new Matrix(rows, p);
    design.columns.forEach((column, j) => column.forEach((value, i) => matrix.set(i, j, value)));
    const r = new QrDecomposition(matrix).upperTriangularMatrix;
    const limit = COLLINEAR * Math.sqrt(design.n);
    // A centred column has n − 1 directions: whatever comes after them is collinear too.
    let drop = -1;
    for (let j = 0; j < p && drop < 0; j++) if (j >= design.n - 1 || Math.abs(r.get(j, j)) < limit) drop = j;
    if (drop < 0) return;
    for (const list of [design.kept, design.columns, design.centres, design.scales]) list.splice(drop, 1);
  }
}

export function dot(a: Float64Array, b: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** Coefficients for the columns as the caller gave them, intercept first; 0 for what was left out. */
export function inCallersUnits(design: DesignMatrix, scaled: Float64Array, given: number): number[] {
  const coefficients: number[] = new Array<number>(given + 1).fill(0);
  let intercept = scaled[0]!;
  design.kept.forEach((place, j) => {
    const slope = scaled[j + 1]! / design.scales[j]!;
    coefficients[place + 1] = slope;
    intercept -= slope * design.centres[j]!;
  });
  coefficients[0] = intercept;
  return coefficients;
}

/**
 * `factor` × (XᵀX)⁻¹ for the columns as the caller gave them, intercept first; NaN in rows and columns left out.
 * Centred columns are at right angles to the intercept, so only the rest has to be inverted.
 */
export function covarianceInCallersUnits(design: DesignMatrix, factor: number, given: number): number[][] {
  const { columns, n, kept, centres, scales } = design;
  const p = columns.length;
  const gram = new Float64Array(p * p);
  for (let i = 0; i < p; i++) for (let j = 0; j <= i; j++) gram[i * p + j] = dot(columns[i]!, columns[j]!, n);
  choleskyInPlace(gram, p);
  const inverse = inverseFactored(gram, p);
  const covariance = Array.from({ length: given + 1 }, () => new Array<number>(given + 1).fill(NaN));
  const put = (i: number, j: number, value: number) => {
    covariance[i]![j] = value;
    covariance[j]![i] = value;
  };
  let corner = 1 / n;
  for (let i = 0; i < p; i++) {
    let withIntercept = 0;
    for (let j = 0; j < p; j++) {
      const value = inverse[i * p + j]! / (scales[i]! * scales[j]!);
      put(kept[i]! + 1, kept[j]! + 1, factor * value);
      withIntercept -= value * centres[j]!;
    }
    put(0, kept[i]! + 1, factor * withIntercept);
    corner -= withIntercept * centres[i]!;
  }
  put(0, 0, factor * corner);
  return covariance;
}
