import { describe, expect, it } from 'vitest';
import { benjaminiHochberg, spearman, theilSen, wilcoxonRankSum } from '../../src/lib/statistics';
import { discordantShares } from '../../src/lib/statistics/theil-sen';
import { rankSumCounts } from '../../src/lib/statistics/wilcoxon-rank-sum';
import { checkValue } from './check-values';
import { expectClose } from './close';

type Pair = { x: number[]; y: number[] };

describe('Wilcoxon rank-sum test', () => {
  it('permeability, exact (Hollander and Wolfe 1973, p. 69; R ?wilcox.test: W = 35, p = 0.1272 one-sided)', () => {
    const { input, expected, published, tolerance } = checkValue<
      Pair,
      { W: number; p_exact_two_sided: number; hodges_lehmann: number },
      { W: number; p_exact_greater: number }
    >('wilcoxon-permeability');
    const test = wilcoxonRankSum(input.x, input.y);
    expect(test.method).toBe('exact');
    expect(test.w).toBe(expected.W);
    expectClose(test.p, expected.p_exact_two_sided, tolerance.exact_abs!);
    expectClose(test.p / 2, published.p_exact_greater, tolerance.published_abs!);
    expectClose(test.shift, expected.hodges_lehmann, tolerance.exact_abs!);
  });

  it("ties: Student's sleep data (R prints W = 25.5, p-value = 0.06933)", () => {
    const { input, expected, published, tolerance } = checkValue<
      Pair,
      { W: number; p_normal_cc: number; hodges_lehmann_median_of_differences: number },
      { p_normal_cc: number }
    >('wilcoxon-sleep-ties');
    const test = wilcoxonRankSum(input.x, input.y);
    expect(test.method).toBe('normal');
    expect(test.w).toBe(expected.W);
    expectClose(test.p, expected.p_normal_cc, tolerance.abs!);
    expectClose(test.p, published.p_normal_cc, tolerance.published_abs!);
    // The median of differences; R's estimate with ties, -1.346, comes from a root finder.
    expectClose(test.shift, expected.hodges_lehmann_median_of_differences, tolerance.abs!);
  });

  it('NIST/SEMATECH e-Handbook 7.3.5, particle counts (z = 1.346133 without tie correction)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { A: number[]; B: number[] },
      { W_R: number; U_A_nist_definition: number; z_no_tie_correction: number; p_two_sided_tie_corrected_cc: number },
      { E_U: number; z: number }
    >('wilcoxon-nist-735');
    const test = wilcoxonRankSum(input.A, input.B);
    expect(test.w).toBe(expected.W_R);
    const u = 121 - test.w;
    expect(u).toBe(expected.U_A_nist_definition);
    // The handbook leaves the ties out; its z must come from the same U.
    const z = (u - published.E_U) / Math.sqrt((121 * 23) / 12);
    expectClose(z, expected.z_no_tie_correction, tolerance.abs!);
    expectClose(z, published.z, tolerance.published_abs!);
    // Here they are corrected for, with continuity, as R does.
    expectClose(test.p, expected.p_two_sided_tie_corrected_cc, tolerance.abs!);
  });

  it('null distribution for four and four (Mann and Whitney 1947)', () => {
    const { expected } = checkValue<
      unknown,
      { counts: number[]; total: number; cdf_0_to_3: number[]; two_sided_p_at_W0: number }
    >('wilcoxon-null-4-4');
    const counts = Array.from(rankSumCounts(4, 4));
    expect(counts).toEqual(expected.counts);
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(expected.total);
    let sum = 0;
    expectClose(
      counts.slice(0, 4).map((count) => (sum += count) / expected.total),
      expected.cdf_0_to_3,
      1e-15,
    );
    expectClose(wilcoxonRankSum([1, 2, 3, 4], [5, 6, 7, 8]).p, expected.two_sided_p_at_W0, 1e-15);
  });

  it('complete separation of three and four: p = 2/C(7,3)', () => {
    const { input, expected, published, tolerance } = checkValue<
      Pair,
      { W: number; p_exact_two_sided: number; hodges_lehmann: number },
      { p: number }
    >('wilcoxon-complete-separation');
    const test = wilcoxonRankSum(input.x, input.y);
    expect(test.w).toBe(expected.W);
    expectClose(test.p, expected.p_exact_two_sided, tolerance.abs!);
    expectClose(test.p, published.p, tolerance.abs!);
    expectClose(test.shift, expected.hodges_lehmann, tolerance.abs!);
  });
});

describe('Spearman correlation', () => {
  it('IQ and hours of television (Wikipedia, worked example: -29/165)', () => {
    const { input, expected, published, tolerance } = checkValue<
      Pair,
      { rho: number; p_exact_two_sided: number },
      { rho: number }
    >('spearman-wikipedia');
    const test = spearman(input.x, input.y);
    expectClose(test.rho, -29 / 165, tolerance.rho_abs!);
    expectClose(test.rho, expected.rho, 5e-15 + tolerance.rho_abs!);
    expectClose(test.rho, published.rho, 1e-9);
    // Counted over all orders of ten, where R's cor.test uses a series (0.631967).
    expect(test.method).toBe('exact');
    expectClose(test.p, expected.p_exact_two_sided, tolerance.p_abs!);
  });

  it('tuna (Hollander and Wolfe 1973, p. 187; R ?cor.test: rho 0.6, p = 0.0968)', () => {
    const { input, expected, published, tolerance } = checkValue<
      Pair,
      { rho: number; p_exact_two_sided: number },
      { rho: number; p: number }
    >('spearman-tuna');
    const test = spearman(input.x, input.y);
    expectClose(test.rho, expected.rho, tolerance.rho_abs!);
    expectClose(test.rho, published.rho, tolerance.rho_abs!);
    expectClose(test.p, expected.p_exact_two_sided, tolerance.p_abs!);
    expectClose(test.p, published.p, tolerance.published_abs!);
  });

  it('ties: Pearson correlation of mid-ranks, √0.9', () => {
    const { input, expected, tolerance } = checkValue<Pair, { rho: number }>('spearman-ties');
    expectClose(spearman(input.x, input.y).rho, expected.rho, tolerance.abs!);
    expectClose(spearman(input.x, input.y).rho, Math.sqrt(0.9), tolerance.abs!);
  });
});

describe('Theil–Sen slope', () => {
  it("Sen's own example (Sen 1968, J. Am. Stat. Assoc. 63:1379): slope 4", () => {
    const { input, expected, published, tolerance } = checkValue<
      Pair,
      {
        slope: number;
        ci_ranks_sen: [number, number];
        ci_sen: [number, number];
        exact_coverage_ranks_4_18: number;
        ci_ranks_5_17: [number, number];
        exact_coverage_ranks_5_17: number;
        sorted_slopes: number[];
      },
      { slope: number; ci_2dp: [number, number] }
    >('theil-sen-sen1968');
    const line = theilSen(input.x, input.y, 0.93);
    expect(line.method).toBe('exact');
    expectClose(line.slope, expected.slope, tolerance.abs!);
    expectClose(line.slope, published.slope, tolerance.abs!);
    // Sen, and scipy after him, call ranks 4 and 18 a 93 % interval; by the exact distribution of Kendall's S
    // they cover 97 %, and 93 % takes ranks 5 and 17. The exact one is used here.
    const shares = Array.from(discordantShares(7));
    const outside = (rank: number) => 2 * shares.slice(0, rank).reduce((sum, share) => sum + share, 0);
    expectClose(1 - outside(4), expected.exact_coverage_ranks_4_18, tolerance.abs!);
    expectClose(1 - outside(5), expected.exact_coverage_ranks_5_17, tolerance.abs!);
    expectClose([line.low, line.high], expected.ci_ranks_5_17, tolerance.abs! * 10);
    // Asked for what ranks 4 and 18 really cover, Sen's interval comes out.
    const wider = theilSen(input.x, input.y, expected.exact_coverage_ranks_4_18);
    expectClose([wider.low, wider.high], expected.ci_sen, tolerance.abs! * 10);
    expectClose([wider.low, wider.high], published.ci_2dp, 0.0051);
    expectClose(expected.sorted_slopes[expected.ci_ranks_sen[0] - 1]!, wider.low, 1e-11);
  });
});

describe('Benjamini–Hochberg', () => {
  it('worked example of the 1995 paper (thrombolysis trial): four of fifteen stand', () => {
    const { input, expected, published, tolerance } = checkValue<
      { p: number[]; q: number },
      { adjusted: number[]; n_rejected_bh: number },
      { n_rejected_bh: number; adjusted_6dp: number[] }
    >('benjamini-hochberg-1995');
    const { rejected, adjusted } = benjaminiHochberg(input.p, input.q);
    expect(rejected.filter(Boolean)).toHaveLength(expected.n_rejected_bh);
    expect(rejected.filter(Boolean)).toHaveLength(published.n_rejected_bh);
    expectClose(adjusted, expected.adjusted, tolerance.abs!);
    expectClose(adjusted, published.adjusted_6dp, 5.1e-7);
  });
});
