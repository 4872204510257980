import { describe, expect, it } from 'vitest';
import { ansariBradley, brownForsythe, flignerKilleen } from '../../src/lib/statistics';
import { checkValue } from './check-values';
import { expectClose } from './close';

describe('tests of spread', () => {
  it('Brown–Forsythe on the gear diameters (NIST/SEMATECH e-Handbook 1.3.5.10: W = 1.705910)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { groups: number[][] },
      {
        W: number;
        df1: number;
        df2: number;
        p: number;
        fligner_chisq_ties_honoured: number;
        fligner_p_ties_honoured: number;
      },
      { W: number; p: number }
    >('brown-forsythe-gear');
    const test = brownForsythe(input.groups);
    expect(test.df).toEqual([expected.df1, expected.df2]);
    expectClose(test.statistic, expected.W, tolerance.W_abs!);
    expectClose(test.p, expected.p, tolerance.p_abs!);
    // Exact arithmetic gives 1.7059177: the handbook's sixth decimal is off.
    expectClose(test.statistic, published.W, tolerance.published_abs!);
    expectClose(test.p, published.p, 5e-5);
    // R's fligner.test prints 11.1508: it misses ties that differ in the last bit.
    const fligner = flignerKilleen(input.groups);
    expectClose(fligner.statistic, expected.fligner_chisq_ties_honoured, tolerance.fligner_abs!);
    expectClose(fligner.p, expected.fligner_p_ties_honoured, tolerance.fligner_abs!);
  });

  it('Fligner–Killeen on the insect sprays (R ?fligner.test: 14.483, p 0.01282; Conover et al. 1981)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { groups: Record<string, number[]> },
      { chisq: number; df: number; p: number; brown_forsythe_F: number; brown_forsythe_p: number },
      { chisq: number; p: number }
    >('fligner-insectsprays');
    const groups = Object.values(input.groups);
    const test = flignerKilleen(groups);
    expect(test.df[0]).toBe(expected.df);
    expectClose([test.statistic, test.p], [expected.chisq, expected.p], tolerance.abs!);
    expectClose([test.statistic, test.p], [published.chisq, published.p], tolerance.published_abs!);
    const other = brownForsythe(groups);
    expectClose([other.statistic, other.p], [expected.brown_forsythe_F, expected.brown_forsythe_p], tolerance.abs!);
  });

  it('Ansari–Bradley with ties on serum iron (Hollander and Wolfe 1973, p. 86; R ?ansari.test: 185.5, p 0.1815)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { x: number[]; y: number[] },
      Record<'AB' | 'p_normal' | 'brown_forsythe_F' | 'brown_forsythe_p' | 'fligner_chisq' | 'fligner_p', number>,
      { AB: number; p_normal: number }
    >('ansari-serum');
    const test = ansariBradley(input.x, input.y);
    expect(test.method).toBe('normal');
    expect(test.ab).toBe(published.AB);
    expectClose([test.ab, test.p], [expected.AB, expected.p_normal], tolerance.abs!);
    expectClose(test.p, published.p_normal, tolerance.published_abs!);
    const groups = [input.x, input.y];
    const forsythe = brownForsythe(groups);
    const fligner = flignerKilleen(groups);
    expectClose([forsythe.statistic, forsythe.p], [expected.brown_forsythe_F, expected.brown_forsythe_p], 1e-9);
    expectClose([fligner.statistic, fligner.p], [expected.fligner_chisq, expected.fligner_p], 1e-9);
  });

  it('Ansari–Bradley exact: all 3,003 ways of choosing ten of fifteen', () => {
    const { input, expected, tolerance } = checkValue<
      { x: number[]; y: number[] },
      { AB: number; p_exact_two_sided: number }
    >('ansari-exact-small');
    const test = ansariBradley(input.x, input.y);
    expect(test.method).toBe('exact');
    expect(test.ab).toBe(expected.AB);
    expectClose(test.p, expected.p_exact_two_sided, tolerance.abs!);
  });
});
