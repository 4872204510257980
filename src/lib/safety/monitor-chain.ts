import { riskAdjustedWeights } from '../statistics';

/** Operations of one expected risk: their share, the rate expected and the rate that holds in truth. */
export type RiskClass = { share: number; expected: number; truth: number };

/** The rate whose odds are `oddsRatio` times those of `rate`. */
export const rateAtOdds = (rate: number, oddsRatio: number) => (oddsRatio * rate) / (1 - rate + oddsRatio * rate);

/** Points of the grid: with 3,000 the probability differs from that of the exact states by at most 0.002. */
const GRID = 3000;

/**
 * Probability that the sum crosses `limit` within `horizon` operations, from 0, by a Markov chain: the distribution of
 * the sum is carried forward operation by operation on a grid, mass between two points shared so that its mean is kept.
 * On a grid because operations of several risks can reach too many sums to keep them all.
 */
export function signalProbability(
  classes: readonly RiskClass[],
  oddsRatio: number,
  limit: number,
  horizon: number,
): number {
  const width = limit / GRID;
  const moves = classes.flatMap((one) => {
    const weights = riskAdjustedWeights(one.expected, oddsRatio);
    return [
      { by: weights.event / width, mass: one.share * one.truth },
      { by: weights.none / width, mass: one.share * (1 - one.truth) },
    ];
  });
  let now = new Float64Array(GRID + 1);
  now[0] = 1;
  let signalled = 0;
  for (let operation = 0; operation < horizon; operation += 1) {
    const next = new Float64Array(GRID + 1);
    for (let point = 0; point < GRID; point += 1) {
      const mass = now[point]!;
      if (mass === 0) continue;
      for (const move of moves) {
        const to = Math.max(0, point + move.by);
        if (to >= GRID) {
          signalled += mass * move.mass;
          continue;
        }
        const below = Math.floor(to);
        const upper = to - below;
        next[below] = next[below]! + mass * move.mass * (1 - upper);
        next[below + 1] = next[below + 1]! + mass * move.mass * upper;
      }
    }
    signalled += next[GRID]!; // shared up to the limit itself
    next[GRID] = 0;
    now = next;
  }
  return signalled;
}

/** The lowest limit whose probability of a signal within `horizon`, nothing being changed, is at most `falseSignal`. */
export function limitFor(
  classes: readonly RiskClass[],
  oddsRatio: number,
  horizon: number,
  falseSignal: number,
): number {
  const asExpected = classes.map((one) => ({ ...one, truth: one.expected }));
  let low = 0;
  let high = Math.log(oddsRatio) * 12; // twelve events running
  while (high - low > 1e-3) {
    const middle = (low + high) / 2;
    if (signalProbability(asExpected, oddsRatio, middle, horizon) > falseSignal) low = middle;
    else high = middle;
  }
  return high;
}
