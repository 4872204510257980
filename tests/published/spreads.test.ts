import { describe, expect, it } from 'vitest';
import { checkValue } from './check-values';
import { expectClose } from './close';
import { brownForsythe } from './comparison/brown-forsythe';

describe('a common test of spread, to compare with', () => {
  it('Brown–Forsythe on the gear diameters (NIST/SEMATECH e-Handbook 1.3.5.10: W = 1.705910)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { groups: number[][] },
      { W: number; df1: number; df2: number; p: number },
      { W: number; p: number }
    >('brown-forsythe-gear');
    const test = brownForsythe(input.groups);
    expect(test.df).toEqual([expected.df1, expected.df2]);
    expectClose(test.statistic, expected.W, tolerance.W_abs!);
    expectClose(test.p, expected.p, tolerance.p_abs!);
    // Exact arithmetic gives 1.7059177: the handbook's sixth decimal is off.
    expectClose(test.statistic, published.W, tolerance.published_abs!);
    expectClose(test.p, published.p, 5e-5);
  });

  it('Brown–Forsythe on the insect sprays and on serum iron (data of R ?fligner.test and ?ansari.test)', () => {
    type Expected = { brown_forsythe_F: number; brown_forsythe_p: number };
    const sprays = checkValue<{ groups: Record<string, number[]> }, Expected>('fligner-insectsprays');
    const serum = checkValue<{ x: number[]; y: number[] }, Expected>('ansari-serum');
    for (const [groups, { brown_forsythe_F: statistic, brown_forsythe_p: p }] of [
      [Object.values(sprays.input.groups), sprays.expected],
      [[serum.input.x, serum.input.y], serum.expected],
    ] as const) {
      const test = brownForsythe(groups);
      expectClose([test.statistic, test.p], [statistic, p], 1e-9);
    }
  });
});
