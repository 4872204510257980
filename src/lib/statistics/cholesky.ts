/**
 * Factor a symmetric positive definite matrix, stored row by row in `a` (lower part read, overwritten with L).
 * Plain loops over a typed array because this runs inside every step of every robust fit; the tests compare with a
 * library's QR decomposition.
 * @returns the smallest pivot, or 0 as soon as one is not positive (the matrix is not definite)
 */
export function choleskyInPlace(a: Float64Array, size: number): number {
  let smallest = Infinity;
  for (let j = 0; j < size; j++) {
    const rowJ = j * size;
    let pivot = a[rowJ + j]!;
    for (let k = 0; k < j; k++) pivot -= a[rowJ + k]! * a[rowJ + k]!;
    if (!(pivot > 0)) return 0;
    if (pivot < smallest) smallest = pivot;
    const root = Math.sqrt(pivot);
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
