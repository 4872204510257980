import { describe, expect, it } from 'vitest';
import { bernoulliCusumSurvival, bernoulliCusumWeights, riskAdjustedWeights } from '../../src/lib/statistics';
import { checkValue } from './check-values';
import { expectClose, expectRelative } from './close';
import { bernoulliCusum } from './comparison/bernoulli-cusum-path';

const odds = (p: number) => p / (1 - p);
const risk = (logit: number) => 1 / (1 + Math.exp(-logit));

describe('Bernoulli CUSUM', () => {
  it('weights and path (Reynolds and Stoumbos, J. Qual. Technol. 1999;31:87; numbers from the formula)', () => {
    type Weights = { r1: number; r2: number; gamma: number; W1: number; W0: number };
    const { input, expected, tolerance } = checkValue<
      { pairs: [number, number][]; path: { p0: number; p1: number; y: number[] } },
      Record<'p0_0.20_p1_0.25' | 'p0_0.01_p1_0.02' | 'p0_0.05_p1_0.10', Weights> & { path: number[] }
    >('bernoulli-cusum-weights');
    const names = ['p0_0.20_p1_0.25', 'p0_0.01_p1_0.02', 'p0_0.05_p1_0.10'] as const;
    input.pairs.forEach(([p0, p1], i) => {
      const { event, none } = bernoulliCusumWeights(p0, odds(p1) / odds(p0));
      const { W1, W0, r1, r2, gamma } = expected[names[i]!];
      expectClose([event, none], [W1, W0], tolerance.abs!);
      // The paper's own parameters, one from the other: r1 = −W(0), r2 = W(1) − W(0), γ = r1/r2.
      expectClose([-none, event - none, -none / (event - none)], [r1, r2, gamma], tolerance.abs!);
    });
    const { p0, p1, y } = input.path;
    const weights = bernoulliCusumWeights(p0, odds(p1) / odds(p0));
    const outcomes = y.map((event) => event === 1);
    expectClose(bernoulliCusum(outcomes, weights, Infinity).path, expected.path, tolerance.abs!);
  });

  it('run length by the exact chain: 11 steps up, one down, limit 36 (method of Reynolds and Stoumbos 1999)', () => {
    const { input, expected, tolerance } = checkValue<
      { p0: number; p1: number; m: number; H: number },
      { r1: number; r2: number; h_in_loglik_units: number; arl0: number; arl1: number }
    >('bernoulli-cusum-arl-exact');
    const weights = bernoulliCusumWeights(input.p0, odds(input.p1) / odds(input.p0));
    expectClose([-weights.none, weights.event - weights.none], [expected.r1, expected.r2], 1e-11);
    expectClose(input.H * expected.r1, expected.h_in_loglik_units, 1e-12);
    // Average run length = sum of the probabilities that no signal has come yet.
    const arl = (p: number) =>
      bernoulliCusumSurvival({ event: input.m - 1, none: -1 }, input.H, p, 25_000).reduce(
        (sum, share) => sum + share,
        0,
      );
    expectRelative(arl(input.p0), expected.arl0, tolerance.expected_rel!);
    expectRelative(arl(input.p1), expected.arl1, tolerance.expected_rel!);
    // The same in log-likelihood units, where up and down only meet to rounding.
    const survival = bernoulliCusumSurvival(weights, expected.h_in_loglik_units, input.p1, 2_000);
    expectRelative(
      survival.reduce((sum, share) => sum + share, 0),
      expected.arl1,
      1e-8,
    );
  });
});

describe('risk-adjusted CUSUM', () => {
  it('weights at Parsonnet scores 0 and 50 (Steiner et al., Biostatistics 2000;1:441; numbers from the formula)', () => {
    type Pair = { death: number; survive: number };
    const { input, expected, tolerance } = checkValue<
      { b0: number; b1: number; scores: [number, number]; RA: [number, number] },
      { p_score0: number; p_score50: number } & Record<
        'RA2_score0' | 'RA2_score50' | 'RAhalf_score0' | 'RAhalf_score50',
        Pair
      >
    >('racusum-weights-parsonnet');
    const risks = input.scores.map((score) => risk(input.b0 + input.b1 * score));
    expectClose(risks, [expected.p_score0, expected.p_score50], tolerance.abs!);
    const pairs = [
      [expected.RA2_score0, expected.RA2_score50],
      [expected.RAhalf_score0, expected.RAhalf_score50],
    ];
    input.RA.forEach((ratio, i) =>
      risks.forEach((p, j) => {
        const { event, none } = riskAdjustedWeights(p, ratio);
        expectClose([event, none], [pairs[i]![j]!.death, pairs[i]![j]!.survive], tolerance.abs!);
        // Whatever the risk, an event and no event lie ln(odds ratio) apart.
        expectClose(event - none, Math.log(ratio), 1e-14);
      }),
    );
  });

  it('score and path (Rigdon and Fricker 2015, Health Surveillance, pp. 225-226: .05083)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { b0: number; b1: number; score: number; RA: [number, number]; path: { p: number[]; y: number[]; RA: number } },
      {
        p: number;
        W_RA2_survive: number;
        W_RAhalf_survive: number;
        cusum_up_after_one: number;
        path: number[];
      },
      { W_RAhalf_survive: number; cusum_up: number }
    >('racusum-weights-rigdon-fricker');
    const p = risk(input.b0 + input.b1 * input.score);
    expectClose(p, expected.p, tolerance.abs!);
    const [double, half] = input.RA.map((ratio) => riskAdjustedWeights(p, ratio));
    expectClose([double!.none, half!.none], [expected.W_RA2_survive, expected.W_RAhalf_survive], tolerance.abs!);
    expectClose(half!.none, published.W_RAhalf_survive, tolerance.published_abs!);
    expect(bernoulliCusum([false], double!, Infinity).path).toEqual([published.cusum_up]);
    const { path } = input;
    const weights = path.p.map((one) => riskAdjustedWeights(one, path.RA));
    const sums = bernoulliCusum(
      path.y.map((event) => event === 1),
      weights,
      Infinity,
    ).path;
    expectClose(sums, expected.path, tolerance.abs!);
    expectClose(bernoulliCusum([false], double!, Infinity).path[0]!, expected.cusum_up_after_one, 0);
  });
});
