/** Share of a column's length that must be its own; the regression leaves out what has less (statistics/design-matrix). */
const OWN_SHARE = 1e-5;

/**
 * Takes columns one by one and tells which carry something of their own beside an intercept and the columns
 * taken before (orthogonalisation done twice, as a QR factorisation in the given order would tell).
 *
 * @see Björck, Numerical Methods for Least Squares Problems (1996), section 2.4.
 */
export class ColumnBasis {
  readonly #directions: Float64Array[] = [];

  /** Takes the column when it is independent; `false` (and nothing taken) when it is constant or a combination of earlier ones. */
  take(column: Float64Array): boolean {
    const rest = centred(column);
    const before = lengthOf(rest);
    for (let pass = 0; pass < 2; pass += 1)
      for (const direction of this.#directions) {
        const along = inner(rest, direction);
        for (let i = 0; i < rest.length; i += 1) rest[i] = (rest[i] ?? 0) - along * (direction[i] ?? 0);
      }
    const own = lengthOf(rest);
    if (!(own > OWN_SHARE * before) || before === 0) return false;
    this.#directions.push(rest.map((value) => value / own));
    return true;
  }
}

function centred(column: Float64Array): Float64Array {
  const mean = column.reduce((sum, value) => sum + value, 0) / Math.max(1, column.length);
  // A constant column must come out as exactly nothing, not as the rounding of its mean.
  return column.every((value) => value === column[0])
    ? new Float64Array(column.length)
    : column.map((value) => value - mean);
}

function inner(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
}

const lengthOf = (column: Float64Array) => Math.sqrt(inner(column, column));
