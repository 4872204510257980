import { binomialCdf } from './distributions';
import { requireNumbers, type Numbers } from './numbers';

export type RunChart = {
  /** Points not on the centre line; points on it neither break nor extend a run. */
  useful: number;
  longestRun: number;
  /** A run longer than this is a signal. */
  longestRunLimit: number;
  crossings: number;
  /** Fewer crossings than this are a signal. */
  crossingsLimit: number;
  /** One of the two rules is broken; never said under ten useful points. */
  signal: boolean;
};

/** Below this the limits let almost nothing through (Anhøj and Olesen 2014 tabulate from 10). */
const LEAST_USEFUL = 10;

/**
 * Run chart: do the points wander more than chance lets them, on one side or the other of a centre line?
 * Longest run against log2(n) + 3 rounded (Schilling 2012), crossings against the 5 % quantile of a binomial of n − 1
 * fair coins (Chen 2010); both together as in Anhøj and Olesen, PLoS ONE 2014;9:e113825. Assumes independent points and
 * a centre set beforehand or the median; about 3 to 8 in 100 charts of pure chance signal.
 * @param centre usually the median of the baseline cases, in the unit of the values
 * @throws on an empty row or a value that is not a number
 */
export function runChart(values: Numbers, centre: number): RunChart {
  requireNumbers('runChart', values);
  let useful = 0;
  let longestRun = 0;
  let crossings = 0;
  let run = 0;
  let side = 0;
  for (let i = 0; i < values.length; i++) {
    const now = Math.sign(values[i]! - centre);
    if (now === 0) continue;
    useful++;
    if (now === side) run++;
    else {
      if (side !== 0) crossings++;
      run = 1;
      side = now;
    }
    longestRun = Math.max(longestRun, run);
  }
  const longestRunLimit = runLimit(useful);
  const crossingsLimit = crossingLimit(useful);
  const signal = useful >= LEAST_USEFUL && (longestRun > longestRunLimit || crossings < crossingsLimit);
  return { useful, longestRun, longestRunLimit, crossings, crossingsLimit, signal };
}

const runLimit = (useful: number): number => (useful === 0 ? 0 : Math.round(Math.log2(useful) + 3));

/** Smallest number of crossings with at least 5 % of chance at or below it. */
function crossingLimit(useful: number): number {
  if (useful < 2) return 0;
  let limit = 0;
  let above = useful - 1;
  while (limit < above) {
    const middle = (limit + above) >> 1;
    if (binomialCdf(middle, useful - 1, 0.5) >= 0.05) above = middle;
    else limit = middle + 1;
  }
  return limit;
}
