/**
 * Factor a symmetric positive definite matrix, stored row by row in `a` (lower part read, overwritten with L:
 * Golub and Van Loan, Matrix Computations, section 4.2). Plain loops over a typed array because this runs inside every step of every robust fit; the tests compare with a
 * library's QR decomposition.
 * @param leaveOutBelow with it, a column whose pivot is below this share of its diagonal is left out: its pivot becomes
 * infinite, which makes its unknown 0 and takes it out of the others
 * @returns the smallest pivot used; without `leaveOutBelow`, 0 as soon as one is not positive (the matrix is not definite)
 */
export function choleskyInPlace(a: Float64Array, size: number, leaveOutBelow = 0): number {
  let smallest = Infinity;
  for (let j = 0; j < size; j++) {
    const rowJ = j * size;
    const diagonal = a[rowJ + j]!;
    let pivot = diagonal;
    for (let k = 0; k < j; k++) pivot -= a[rowJ + k]! * a[rowJ + k]!;
    const used = pivot > leaveOutBelow * diagonal;
    if (!used && leaveOutBelow === 0) return 0;
    if (used && pivot < smallest) smallest = pivot;
    const root = used ? Math.sqrt(pivot) : Infinity;
    a[rowJ + j] = root;
    for (let i = j + 1; i < size; i++) {
      const rowI = i * size;
      let sum = a[rowI + j]!;
      for (let k = 0; k < j; k++) sum -= a[rowI + k]! * a[rowJ + k]!;
      a[rowI + j] = sum / root;
    }
  }
  return smallest;
}

/** Solve L Lᵀ x = b for the factor left by `choleskyInPlace`; `b` becomes x. */
export function solveFactored(l: Float64Array, size: number, b: Float64Array): void {
  for (let i = 0; i < size; i++) {
    let sum = b[i]!;
    for (let k = 0; k < i; k++) sum -= l[i * size + k]! * b[k]!;
    b[i] = sum / l[i * size + i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    let sum = b[i]!;
    for (let k = i + 1; k < size; k++) sum -= l[k * size + i]! * b[k]!;
    b[i] = sum / l[i * size + i]!;
  }
}

/** The whole inverse of L Lᵀ, row by row. */
export function inverseFactored(l: Float64Array, size: number): Float64Array {
  const inverse = new Float64Array(size * size);
  const unit = new Float64Array(size);
  for (let j = 0; j < size; j++) {
    unit.fill(0);
    unit[j] = 1;
    solveFactored(l, size, unit);
    for (let i = 0; i < size; i++) inverse[i * size + j] = unit[i]!;
  }
  return inverse;
}
