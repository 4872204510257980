import type { EventWeights } from '../../../src/lib/statistics/event-weights';

/** Sums this close are one and the same. */
const SAME = 1e-9;

/**
 * Sum of evidence for a raised event rate, never under 0 (Reynolds and Stoumbos 1999; with one pair of weights an
 * operation Steiner et al. 2000).
 * @param outcomes one an operation, in order of time
 * @param weights one pair for all, or one pair an operation
 * @returns the sum after each operation, and the place (from 0) of the first at or above the limit; nothing restarts
 */
export function bernoulliCusum(
  outcomes: readonly boolean[],
  weights: EventWeights | readonly EventWeights[],
  limit: number,
): { path: number[]; signal: number | null } {
  let sum = 0;
  let signal: number | null = null;
  const path = outcomes.map((event, i) => {
    const pair = 'event' in weights ? weights : weights[i];
    if (!pair) throw new RangeError('bernoulliCusum requires weights for every operation');
    sum = Math.max(0, sum + (event ? pair.event : pair.none));
    if (signal === null && sum >= limit - SAME) signal = i;
    return sum;
  });
  return { path, signal };
}
