import { describe, expect, it } from 'vitest';
import { shiftInterval } from '../../src/lib/statistics';

/*
 * wilcox.test(x, y, conf.int = TRUE) of R 4.2.2 (Debian r-base-core 4.2.2.20221110-2) on x_i = 100·frac(i·√2),
 * i = 1 … m, and y_i = 100·frac(i·√3) − 7, i = 1 … n: which of the m·n differences in rising order are its limits, its
 * estimate and its limits. From 50 values in either group R approximates (`correct = TRUE`, limits by uniroot to 1e-4).
 * The ranks are those of the test inverted; cutting the normal approximation down to a whole number instead takes another
 * difference than R in 844 of the 1,035 pairs of sizes from 5 to 49.
 */
const byR: readonly (readonly [number, number, number, number, number, number, number, 'exact' | 'normal'])[] = [
  [5, 5, 3, 23, -5.508461, -59.0983, 43.432551, 'exact'],
  [5, 8, 7, 34, -1.748633, -44.398967, 35.985791, 'exact'],
  [5, 20, 21, 80, -2.015716, -37.559269, 30.729903, 'exact'],
  [6, 30, 44, 137, 0.308697, -28.115824, 28.806114, 'exact'],
  [5, 45, 52, 174, 0.869967, -30.913758, 30.996986, 'exact'],
  [5, 49, 57, 189, 0.869967, -30.913758, 30.996986, 'exact'],
  [5, 50, 58, 193, 0.859952, -30.91367, 30.729899, 'normal'],
  [5, 60, 70, 231, 0.07344, -31.447889, 30.12282, 'normal'],
  [5, 95, 114, 362, 0.602925, -29.864154, 29.855788, 'normal'],
  [7, 9, 13, 51, 4.129171, -32.30338, 35.985791, 'exact'],
  [8, 12, 23, 74, 5.261054, -27.581658, 33.45494, 'exact'],
  [8, 40, 90, 231, 5.652335, -20.134898, 28.199052, 'exact'],
  [8, 60, 137, 344, 4.829905, -19.619392, 27.931918, 'normal'],
  [9, 13, 29, 89, 6.660021, -20.401981, 35.912895, 'exact'],
  [10, 10, 24, 77, 1.841205, -27.581658, 30.996986, 'exact'],
  [10, 30, 88, 213, 3.558557, -18.551088, 25.935285, 'exact'],
  [12, 37, 138, 307, 8.984434, -11.298516, 30.657007, 'exact'],
  [12, 38, 142, 315, 8.41382, -13.028117, 29.782862, 'exact'],
  [12, 39, 146, 323, 8.280279, -13.028117, 28.806114, 'exact'],
  [12, 90, 351, 730, 8.765564, -10.515937, 28.107419, 'normal'],
  [13, 47, 197, 415, 7.976748, -11.371411, 27.397803, 'exact'],
  [15, 25, 118, 258, 6.392938, -13.222304, 25.935285, 'exact'],
  [17, 83, 492, 920, 5.858796, -10.588889, 22.141922, 'normal'],
  [20, 20, 128, 273, 3.485661, -17.604048, 23.064455, 'exact'],
  [20, 29, 194, 387, 6.623573, -10.910141, 25.255327, 'exact'],
  [20, 31, 209, 412, 5.336554, -13.222304, 22.870268, 'exact'],
  [20, 40, 275, 526, 6.089407, -10.764349, 22.943164, 'exact'],
  [20, 80, 573, 1028, 5.913446, -9.374789, 20.946522, 'normal'],
  [24, 26, 211, 414, 8.328675, -8.986352, 25.862389, 'exact'],
  [25, 25, 212, 414, 5.907168, -11.177224, 22.991559, 'exact'],
  [25, 26, 221, 430, 8.061592, -10.424371, 25.255327, 'exact'],
  [30, 30, 318, 583, 4.032077, -11.444307, 20.387813, 'exact'],
  [30, 49, 541, 930, 5.23946, -9.107644, 19.392377, 'exact'],
  [30, 70, 789, 1312, 5.475822, -7.742497, 18.591066, 'normal'],
  [40, 40, 597, 1004, 5.433647, -7.888313, 18.755608, 'exact'],
  [40, 60, 921, 1480, 5.024737, -7.208264, 17.274356, 'normal'],
  [49, 49, 925, 1477, 6.320042, -5.84844, 18.415629, 'exact'],
  [49, 50, 945, 1506, 6.071103, -6.042649, 18.002816, 'normal'],
  [50, 50, 966, 1535, 6.560888, -5.503284, 18.488561, 'normal'],
];
const fractions = (n: number, k: number) => Array.from({ length: n }, (_, i) => 100 * (((i + 1) * Math.sqrt(k)) % 1));

describe('Hodges-Lehmann shift with its interval', () => {
  it('permeability (Hollander and Wolfe 1973, p. 69): R 4.2.2 wilcox.test(x, y, conf.int = TRUE) gives 0.305, -0.15 to 0.76', () => {
    const x = [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46];
    const y = [1.15, 0.88, 0.9, 0.74, 1.21];
    const found = shiftInterval(x, y);
    expect(found.method).toBe('exact');
    expect(found.estimate).toBeCloseTo(0.305, 12);
    expect(found.low).toBeCloseTo(-0.15, 12);
    expect(found.high).toBeCloseTo(0.76, 12);
  });
  it.each(byR)(
    '%i and %i values: the differences that R takes as limits',
    (m, n, low, high, estimate, from, to, how) => {
      const [x, y] = [fractions(m, 2), fractions(n, 3).map((value) => value - 7)];
      const differences = Float64Array.from(x.flatMap((a) => y.map((b) => a - b))).sort();
      const found = shiftInterval(x, y);
      expect(found.method).toBe(how);
      expect([found.low, found.high]).toEqual([differences[low - 1], differences[high - 1]]);
      expect(found.low).toBeCloseTo(from, how === 'exact' ? 6 : 3);
      expect(found.high).toBeCloseTo(to, how === 'exact' ? 6 : 3);
      if (how === 'exact') expect(found.estimate).toBeCloseTo(estimate, 6);
      else expect(Math.abs(found.estimate - estimate)).toBeLessThan(0.2);
    },
  );

  it('turns round when the groups are exchanged, and moves with a shift', () => {
    const [x, y] = [
      [1, 4, 2, 8, 5, 7, 3, 9],
      [2.5, 6.5, 0.5, 3.5, 1.5, 4.5, 5.5, 7.5],
    ];
    const [one, other, moved] = [
      shiftInterval(x, y),
      shiftInterval(y, x),
      shiftInterval(
        x.map((v) => v + 10),
        y,
      ),
    ];
    expect([other.low, other.estimate, other.high]).toEqual([-one.high, -one.estimate, -one.low]);
    expect(moved.estimate - one.estimate).toBeCloseTo(10, 9);
    expect(moved.low - one.low).toBeCloseTo(10, 9);
  });
});
