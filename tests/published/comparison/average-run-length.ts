import { Matrix, solve } from 'ml-matrix';
import { normalCdf } from '../../../src/lib/statistics/distributions';
import { gaussLegendre } from './gauss-legendre';

/** Points of the integral equations; 80 holds seven digits for weights from 0.03. */
const POINTS = 80;

const density = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/**
 * How many points a one- or two-sided CUSUM of normal values runs on average before it signals, from 0.
 * Page's integral equation by Gauss–Legendre points (Goel and Wu, Technometrics 1971;13:221); two-sided:
 * 1/ARL = 1/ARL(up) + 1/ARL(down) (Kemp 1961). Assumes centre and scale are known exactly: with limits from a few
 * baseline cases real charts signal far sooner, which is why the limits shown come from `inControlCusumLimit`.
 * @param k slack and h limit in SDs; shift of the mean in SDs
 */
export function cusumAverageRunLength({
  k,
  h,
  shift = 0,
  sides = 2,
}: {
  k: number;
  h: number;
  shift?: number;
  sides?: 1 | 2;
}): number {
  const up = oneSidedCusum(k, h, shift);
  return sides === 1 ? up : 1 / (1 / up + 1 / oneSidedCusum(k, h, -shift));
}

function oneSidedCusum(k: number, h: number, shift: number): number {
  const { nodes, weights } = gaussLegendre(POINTS, 0, h);
  // Unknowns: the run length from 0, then from each node. From z: 1 + L(0)·P(back to 0) + ∫ L(x)·density(x from z).
  const from = [0, ...nodes];
  const system = Matrix.eye(from.length, from.length);
  from.forEach((z, i) => {
    system.set(i, 0, system.get(i, 0) - normalCdf(k - shift - z));
    nodes.forEach((x, j) => system.set(i, j + 1, system.get(i, j + 1) - weights[j]! * density(x + k - shift - z)));
  });
  return solve(system, Matrix.ones(from.length, 1)).get(0, 0);
}

/**
 * The same for an EWMA with its settled limits, both sides, started at the target
 * (Crowder, Technometrics 1987;29:401). Centre and scale known exactly, see above.
 * @param lambda weight of the newest value; limit L in SDs of the average; shift of the mean in SDs
 */
export function ewmaAverageRunLength({
  lambda,
  limit,
  shift = 0,
}: {
  lambda: number;
  limit: number;
  shift?: number;
}): number {
  const half = limit * Math.sqrt(lambda / (2 - lambda));
  const { nodes, weights } = gaussLegendre(POINTS, -half, half);
  const from = [0, ...nodes];
  const system = Matrix.eye(from.length, from.length);
  from.forEach((z, i) =>
    nodes.forEach((x, j) => {
      const reach = density((x - (1 - lambda) * z) / lambda - shift) / lambda;
      system.set(i, j + 1, system.get(i, j + 1) - weights[j]! * reach);
    }),
  );
  return solve(system, Matrix.ones(from.length, 1)).get(0, 0);
}
