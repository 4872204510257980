import { requireSameLength } from './numbers';

/**
 * Why a fit is not possible:
 * `too-few` no more cases than coefficients; `no-variation` all values, or all but the odd one, lie on the fit exactly
 * (no spread to measure against); `not-a-number` a value in the data is not a finite number.
 */
export type FitProblem = 'too-few' | 'no-variation' | 'not-a-number';

/** @throws when the columns and y differ in length: a wrong call, not unsuitable data */
export function problemWithData(who: string, columns: readonly Float64Array[], y: Float64Array): FitProblem | null {
  if (y.length === 0) return 'too-few';
  for (const row of [y, ...columns]) {
    requireSameLength(who, row, y);
    for (let i = 0; i < row.length; i++) if (!Number.isFinite(row[i])) return 'not-a-number';
  }
  return null;
}
