import { bernoulliCusumWeights, type EventWeights } from './event-weights';

/** Sums this close are one and the same: 11 steps down and one of 11 up must meet at 0. */
const SAME = 1e-9;

/**
 * Probability that no signal has come by each operation, exactly: a Markov chain over the sums that can be reached,
 * not over a grid.
 * @param p true event rate
 * @returns at place t the probability of no signal in the first t operations; length horizon + 1
 */
export function bernoulliCusumSurvival(weights: EventWeights, limit: number, p: number, horizon: number): Float64Array {
  const { afterEvent, afterNone } = reachable(weights, limit, horizon);
  let now = new Float64Array(afterEvent.length);
  let next = new Float64Array(afterEvent.length);
  now[0] = 1;
  const survival = new Float64Array(horizon + 1);
  survival[0] = 1;
  for (let t = 1; t <= horizon; t++) {
    next.fill(0);
    let left = 0;
    for (let state = 0; state < now.length; state++) {
      const share = now[state]!;
      if (share === 0) continue;
      const up = afterEvent[state]!;
      const down = afterNone[state]!;
      next[down] = next[down]! + share * (1 - p);
      left += share * (1 - p);
      if (up < 0) continue;
      next[up] = next[up]! + share * p;
      left += share * p;
    }
    survival[t] = left;
    [now, next] = [next, now];
  }
  return survival;
}

/** The sums that can occur before a signal within so many operations, and where each leads (−1: a signal). */
function reachable(weights: EventWeights, limit: number, horizon: number) {
  const values = [0];
  const places = new Map<number, number>([[0, 0]]);
  const afterEvent: number[] = [];
  const afterNone: number[] = [];
  const placeOf = (sum: number): number => {
    if (sum >= limit - SAME) return -1;
    const held = sum <= SAME ? 0 : sum;
    const key = Math.round(held / SAME);
    const known = places.get(key);
    if (known !== undefined) return known;
    places.set(key, values.length);
    values.push(held);
    return values.length - 1;
  };
  let from = 0;
  for (let step = 0; step < horizon && from < values.length; step++) {
    const to = values.length;
    for (; from < to; from++) {
      afterEvent.push(placeOf(values[from]! + weights.event));
      afterNone.push(placeOf(values[from]! + weights.none));
    }
  }
  // Sums first reached with the last operation lead nowhere any more.
  for (; from < values.length; from++) {
    afterEvent.push(-1);
    afterNone.push(0);
  }
  return { afterEvent, afterNone };
}

/**
 * The lowest limit at which a record with the expected rate signals within `horizon` operations with at most the given
 * probability, by the exact chain. Sums are discrete, so the probability stays a little below what is asked.
 * @param p0 expected rate, above 0 and below 1
 * @param oddsRatio what should be noticed, above 1
 * @param falseSignal 0..1
 * @returns log-likelihood units, for `bernoulliCusum`
 */
export function bernoulliCusumLimit(p0: number, oddsRatio: number, horizon: number, falseSignal: number): number {
  if (!(oddsRatio > 1)) throw new RangeError(`bernoulliCusumLimit requires an odds ratio above 1, not ${oddsRatio}`);
  const weights = bernoulliCusumWeights(p0, oddsRatio);
  const tooOften = (limit: number) => 1 - bernoulliCusumSurvival(weights, limit, p0, horizon)[horizon]! > falseSignal;
  let low = 0;
  let high = weights.event;
  while (tooOften(high)) {
    low = high;
    high *= 2;
  }
  while (high - low > 1e-7) {
    const middle = (low + high) / 2;
    if (tooOften(middle)) low = middle;
    else high = middle;
  }
  return high;
}
