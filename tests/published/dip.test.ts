import { describe, expect, it } from 'vitest';
import { dip } from '../../src/lib/statistics';

/*
 * Values of dip() in R 4.2.2 with the package diptest 0.76 (Maechler; Debian r-cran-diptest 0.76-0-1), which carries
 * Hartigan's algorithm AS 217 with its corrections of 1994 to 2003. The faculty data are that package's `statfaculty`, faculty quality in
 * 63 statistics departments, its worked example: dip 0.0595.
 */
const faculty = [
  30, 33, 35, 36, 37, 37, 39, 39, 39, 39, 39, 40, 40, 40, 40, 41, 42, 43, 43, 43, 44, 44, 45, 45, 46, 46, 47, 47, 48,
  48, 48, 49, 50, 50, 51, 52, 52, 53, 53, 53, 53, 53, 54, 54, 57, 57, 59, 60, 60, 60, 61, 61, 61, 61, 62, 62, 62, 62,
  63, 66, 70, 72, 72,
];

/** frac(i·√k), i = 1 … n: the same numbers in any program. */
const fractions = (n: number, k: number) => Array.from({ length: n }, (_, i) => ((i + 1) * Math.sqrt(k)) % 1);
const rising = (values: readonly number[]) => Float64Array.from(values).sort();

/** n; dip of n even values; of those with n more in a second group; of n values crowded at one end. */
const byR = [
  [5, 0.117157287525381, 0.117609200589875, 0.1],
  [9, 0.092047458305132, 0.10539551456924, 0.079052007635207],
  [10, 0.082842712474619, 0.106613624574956, 0.071146806871686],
  [20, 0.051471862576143, 0.091059488969206, 0.040713778360244],
  [33, 0.027410471833182, 0.08908279431862, 0.024733103278344],
  [60, 0.020177968644246, 0.086935572787812, 0.014133746581771],
  [100, 0.008330444827419, 0.084586679717235, 0.011233047576545],
  [200, 0.006357479929862, 0.084294243396997, 0.006225973405889],
] as const;

describe("the dip, against R's diptest", () => {
  it('faculty quality in 63 departments', () => {
    expect(dip(Float64Array.from(faculty))).toBeCloseTo(0.05952380952381, 12);
  });

  it.each(byR)('%i values: even, in two groups, crowded at one end', (n, even, groups, crowded) => {
    expect(dip(rising(fractions(n, 2)))).toBeCloseTo(even, 12);
    const second = fractions(n, 3).map((value) => 1.5 + value ** 2);
    expect(dip(rising([...fractions(n, 2), ...second]))).toBeCloseTo(groups, 12);
    expect(dip(rising(fractions(n, 5).map((value) => value ** 3)))).toBeCloseTo(crowded, 12);
  });
});
