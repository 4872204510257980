import { describe, expect, it } from 'vitest';
import { huberRegression, theilSen } from '../../src/lib/statistics';
import { checkValue } from './check-values';
import { expectClose, expectRelative } from './close';
import { leastSquares } from './comparison/least-squares';

const column = (values: number[]) => Float64Array.from(values);

function fitted<T extends { kind: string }>(fit: T): Extract<T, { kind: 'fit' }> {
  expect(fit.kind).toBe('fit');
  return fit as Extract<T, { kind: 'fit' }>;
}

describe('least squares', () => {
  it('NIST Statistical Reference Datasets, Norris (certified)', () => {
    type Values = Record<'intercept' | 'slope' | 'se_intercept' | 'se_slope', number>;
    const { input, expected, published, tolerance } = checkValue<
      { x: number[]; y: number[] },
      Values & { residual_sd: number; theil_sen_slope_R_only: number },
      Values
    >('ols-norris');
    const fit = fitted(leastSquares([column(input.x)], column(input.y)));
    for (const values of [expected, published]) {
      expectRelative(fit.coefficients, [values.intercept, values.slope], tolerance.rel!);
      expectRelative(fit.se, [values.se_intercept, values.se_slope], tolerance.rel!);
    }
    expectRelative(fit.scale, expected.residual_sd, tolerance.rel!);
    expectRelative(theilSen(input.x, input.y).slope, expected.theil_sen_slope_R_only, tolerance.rel!);
  });

  it('NIST Statistical Reference Datasets, Longley, nearly collinear (certified)', () => {
    type Input = Record<'y' | 'x1' | 'x2' | 'x3' | 'x4' | 'x5' | 'x6', number[]>;
    const { input, expected, published, tolerance } = checkValue<
      Input,
      { coef_intercept_then_x1_to_x6: number[]; residual_sd: number },
      { coef: number[] }
    >('ols-longley');
    const x = [input.x1, input.x2, input.x3, input.x4, input.x5, input.x6].map(column);
    const fit = fitted(leastSquares(x, column(input.y)));
    expect(fit.kept).toEqual([0, 1, 2, 3, 4, 5]);
    expectRelative(fit.coefficients, expected.coef_intercept_then_x1_to_x6, tolerance.rel!);
    expectRelative(fit.coefficients, published.coef, tolerance.rel!);
    expectRelative(fit.scale, expected.residual_sd, tolerance.rel!);
  });
});

describe('Huber regression', () => {
  it('stack loss (MASS ?rlm: -41.0265 0.8294 0.9261 -0.1278, scale 2.441)', () => {
    const { input, expected, published, tolerance } = checkValue<
      Record<'air_flow' | 'water_temp' | 'acid_conc' | 'stack_loss', number[]>,
      { coef_converged: number[]; scale_converged: number },
      { coef: number[]; se: number[]; residual_scale: number }
    >('huber-rlm-stackloss');
    const x = [input.air_flow, input.water_temp, input.acid_conc].map(column);
    const fit = fitted(huberRegression(x, column(input.stack_loss), { maxSteps: 500, tolerance: 1e-12 }));
    expectClose(fit.coefficients, expected.coef_converged, tolerance.converged_abs!);
    expectClose(fit.scale, expected.scale_converged, tolerance.converged_abs!);
    // MASS stops at 1e-4, this goes on to 1e-8: the printed digits agree all the same.
    const usual = fitted(huberRegression(x, column(input.stack_loss)));
    expect(usual.converged).toBe(true);
    expectClose(usual.coefficients, published.coef, tolerance.published_abs!);
    expectClose(usual.scale, published.residual_scale, 5.5e-4);
    // MASS divides the variance of ψ′ by n − 1, Huber (1981) by n: put that in, and its printed errors come out.
    const { n, p, m } = usual;
    const asPrinted = (1 + (p * (1 - m)) / ((n - 1) * m)) / (1 + (p * (1 - m)) / (n * m));
    expectRelative(
      usual.se.map((error) => error * asPrinted),
      published.se,
      5e-4,
    );
    expectRelative(usual.se, published.se, 2e-3);
  });

  it('Belgian phone calls, gross outliers (Venables and Ripley 2002, sec. 6.5; from R where it converges) (from memory)', () => {
    const { input, expected, published, tolerance } = checkValue<
      { year: number[]; calls: number[] },
      { huber_coef_converged: number[]; ols_coef: number[]; theil_sen_slope: number },
      { huber: number[]; ols: number[] }
    >('huber-rlm-phones');
    const year = [column(input.year)];
    const calls = column(input.calls);
    const fit = fitted(huberRegression(year, calls, { maxSteps: 500 }));
    expectClose(fit.coefficients, expected.huber_coef_converged, tolerance.huber_converged_abs!);
    // MASS's printed -102.6222 is where its looser stopping rule ends; fifty steps here come closer than that.
    const usual = fitted(huberRegression(year, calls));
    expectClose(usual.coefficients[0]!, published.huber[0]!, 0.1);
    expectClose(usual.coefficients[1]!, published.huber[1]!, 0.002);
    expectClose(usual.coefficients, expected.huber_coef_converged, 0.001);
    const plain = fitted(leastSquares(year, calls));
    expectRelative(plain.coefficients, expected.ols_coef, tolerance.ols_rel!);
    expectClose(plain.coefficients, published.ols, 6e-4);
    expectClose(theilSen(input.year, input.calls).slope, expected.theil_sen_slope, 1e-12);
  });
});
