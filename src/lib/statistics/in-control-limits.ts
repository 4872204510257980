import { ewma } from './ewma';
import { mean, sampleSd } from './mean';
import { quantile } from './quantile';
import { randomStream } from './random-stream';
import { tabularCusum } from './tabular-cusum';

/** Centre and scale as the chart will take them from its baseline cases. */
export type StartingLevel = (starting: Float64Array) => { centre: number; scale: number };

export type InControl = {
  /** Baseline cases from which centre and scale are estimated. */
  starting: number;
  /** Points watched after them. */
  horizon: number;
  /** Share of charts of pure chance allowed to signal within the horizon. */
  falseSignal: number;
  seed: number;
  runs?: number;
  /** Mean and SD unless said; must be what the chart itself uses. */
  level?: StartingLevel;
};

const RUNS = 4000;

const meanAndSd: StartingLevel = (starting) => ({ centre: mean(starting), scale: sampleSd(starting) });

/**
 * Limit L of an EWMA whose centre and scale are only estimated from n baseline cases, by simulating charts of pure
 * chance that estimate them anew each time. Textbook limits take both as known and signal falsely several times too
 * often (Jensen et al., J. Qual. Technol. 2006;38:349). Independent normal values are assumed.
 * @returns L in SDs of the settled average, for `ewmaHalfWidth(scale, lambda, L)`
 * @throws on fewer than two baseline cases
 */
export function inControlEwmaLimit(lambda: number, how: InControl): number {
  const settled = Math.sqrt(lambda / (2 - lambda));
  return limitOf(how, (standardised) => {
    let furthest = 0;
    for (const z of ewma(standardised, { lambda, target: 0 })) furthest = Math.max(furthest, Math.abs(z));
    return furthest / settled;
  });
}

/**
 * Limit h of a two-sided CUSUM in the same situation.
 * @param k slack in SDs
 * @returns h in SDs as estimated from the baseline cases
 */
export function inControlCusumLimit(k: number, how: InControl): number {
  return limitOf(how, (standardised) => {
    const { high, low } = tabularCusum(standardised, { target: 0, k, h: Infinity });
    return Math.max(...high, ...low);
  });
}

function limitOf(how: InControl, furthestOf: (standardised: Float64Array) => number): number {
  const { starting, horizon, falseSignal, seed, runs = RUNS, level = meanAndSd } = how;
  if (!(starting >= 2)) throw new RangeError(`in-control limits require at least two baseline cases, not ${starting}`);
  const before = new Float64Array(starting);
  const after = new Float64Array(horizon);
  const furthest = new Float64Array(runs);
  for (let run = 0; run < runs; run++) {
    const chance = randomStream(seed, run);
    for (let i = 0; i < starting; i++) before[i] = chance.normal();
    const { centre, scale } = level(before);
    for (let i = 0; i < horizon; i++) after[i] = (chance.normal() - centre) / scale;
    furthest[run] = furthestOf(after);
  }
  return quantile(furthest, 1 - falseSignal);
}
