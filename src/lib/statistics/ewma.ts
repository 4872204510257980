import type { Numbers } from './numbers';

function requireWeight(lambda: number): void {
  if (!(lambda > 0 && lambda <= 1)) throw new RangeError(`ewma requires a weight above 0 up to 1, not ${lambda}`);
}

/**
 * Exponentially weighted moving average, z = λ·x + (1 − λ)·z from the target (Roberts, Technometrics 1959;1:239):
 * small lasting shifts show that single points hide.
 * @param lambda weight of the newest value, 0..1
 * @returns one value a point, in the unit of the values
 */
export function ewma(values: Numbers, { lambda, target }: { lambda: number; target: number }): number[] {
  requireWeight(lambda);
  let z = target;
  return Array.from(values, (x) => (z = lambda * x + (1 - lambda) * z));
}

/**
 * Half the width between the limits round the target: L·σ·√(λ/(2 − λ)·(1 − (1 − λ)^(2i))).
 * @param limit L, in SDs of the average
 * @param point i from 1; left out: the width it settles at
 */
export function ewmaHalfWidth(sigma: number, lambda: number, limit: number, point = Infinity): number {
  requireWeight(lambda);
  return limit * sigma * Math.sqrt((lambda / (2 - lambda)) * (1 - (1 - lambda) ** (2 * point)));
}
