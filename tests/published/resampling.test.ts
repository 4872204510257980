import { describe, it } from 'vitest';
import { drawListCounts, mean, median, quantile } from '../../src/lib/statistics';
import { checkValue } from './check-values';
import { expectClose, expectRelative } from './close';

const DRAWS = 20_000;

/** Efron's bootstrap draws as many as there are; the tool's own resamples take one list fewer. */
function redrawn(values: readonly number[], draw: number): number[] {
  const counts = drawListCounts(values.length, draw, 1993, values.length);
  return values.flatMap((value, i) => new Array<number>(counts[i]!).fill(value));
}

function bootstrap(values: readonly number[], statistic: (sample: number[]) => number): number[] {
  return Array.from({ length: DRAWS }, (_, draw) => statistic(redrawn(values, draw)));
}

const pluginSd = (values: number[]) => {
  const centre = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - centre) ** 2)));
};

describe('resamples of the seven treated mice', () => {
  it('standard errors for endless resamples (Efron and Tibshirani 1993, Tables 2.1-2.2: 23.36, 37.83) (from memory)', () => {
    const { input, expected, published } = checkValue<
      { treatment: number[] },
      { mean_treatment: number; se_mean_ideal: number; se_median_ideal: number },
      { mean: number; se_mean: number; se_median: number }
    >('boot-mouse-ideal-se');
    expectClose(mean(input.treatment), expected.mean_treatment, 1e-12);
    expectClose(mean(input.treatment), published.mean, 0.005);
    // 20,000 resamples: four standard errors of an SD are 2 % of it.
    const ofMeans = pluginSd(bootstrap(input.treatment, mean));
    const ofMedians = pluginSd(bootstrap(input.treatment, median));
    for (const values of [expected.se_mean_ideal, published.se_mean]) expectRelative(ofMeans, values, 0.02);
    for (const values of [expected.se_median_ideal, published.se_median]) expectRelative(ofMedians, values, 0.02);
  });

  it('how often each mouse is the median (Efron 1979: P(median ≤ x(k)) = P(Bin(7, k/7) ≥ 4))', () => {
    const { input, expected } = checkValue<{ sorted: number[] }, { prob: number[] }>('boot-mouse-median-distribution');
    const medians = bootstrap(input.sorted, median);
    input.sorted.forEach((value, k) => {
      const p = expected.prob[k]!;
      const share = medians.filter((one) => one === value).length / DRAWS;
      expectClose(share, p, 4 * Math.sqrt((p * (1 - p)) / DRAWS));
    });
  });

  it('percentile interval of the mean (Efron and Tibshirani 1993, Table 13.1: 45.9 to 135.4 from 1,000 resamples)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { x: number[]; level: number },
      { percentile: number[] },
      { percentile_B1000: number[] }
    >('boot-mouse-percentile-bca');
    // As every interval of resamples here: the middle of them, ends by quantile type 8.
    const means = bootstrap(input.x, mean);
    const [low, high] = [(1 - input.level) / 2, (1 + input.level) / 2].map((share) => quantile(means, share));
    expectClose([low!, high!], expected.percentile, tolerance.monte_carlo_B20000_abs!);
    expectClose([low!, high!], published.percentile_B1000, tolerance.published_abs!);
  });
});
