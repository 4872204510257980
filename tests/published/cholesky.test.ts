import { describe, expect, it } from 'vitest';
import { choleskyInPlace, solveFactored } from '../../src/lib/statistics';

/*
 * The Hilbert matrix of order three, h_ij = 1/(i + j − 1), whose inverse in whole numbers is classical:
 * 9, −36, 30; −36, 192, −180; 30, −180, 180 (Choi, Am. Math. Mon. 1983;90:301).
 */
const hilbert = () => Float64Array.from([1, 0, 0, 1 / 2, 1 / 3, 0, 1 / 3, 1 / 4, 1 / 5]);
const inverse = [
  [9, -36, 30],
  [-36, 192, -180],
  [30, -180, 180],
];

describe('Cholesky', () => {
  it.each([0, 1, 2])('solves for column %i of the inverse of a Hilbert matrix', (column) => {
    const factor = hilbert();
    expect(choleskyInPlace(factor, 3)).toBeGreaterThan(0);
    const right = Float64Array.from([0, 1, 2], (row) => (row === column ? 1 : 0));
    solveFactored(factor, 3, right);
    right.forEach((value, row) => expect(value).toBeCloseTo(inverse[row]![column]!, 9));
  });

  it('leaves out a column that others say already, and refuses it where nothing may be left out', () => {
    const twice = () => Float64Array.from([4, 0, 0, 4, 4, 0, 2, 2, 5]);
    expect(choleskyInPlace(twice(), 3)).toBe(0);
    const factor = twice();
    expect(choleskyInPlace(factor, 3, 1e-9)).toBeGreaterThan(0);
    const right = Float64Array.from([10, 10, 9]);
    solveFactored(factor, 3, right);
    // Without the second column: 4a + 2c = 10, 2a + 5c = 9.
    expect([...right].map((value) => Number(value.toFixed(12)))).toEqual([2, 0, 1]);
  });
});
