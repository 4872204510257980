import { plainBlanks, prose } from '../format';
import { dip } from '../statistics';
import { groupEffect } from './group-effect';
import type { PatternTest } from './pattern-test';
import { auditThresholds } from './thresholds';

/**
 * How rarely one bell of n logs shows a dip of this size: √n · dip against its upper tail, from 60,000 seeded draws of
 * 60 normal values (more values, long outliers or heavier tails give smaller dips, so the p is on the safe side).
 * The flat hump of the original paper was tried first: against it two groups have to lie five SDs apart to be seen in
 * a hundred cases. A table, not a simulation in each audit: a p small enough for a family of two hundred tests would
 * need ten thousand draws.
 */
const TAIL: readonly (readonly [rootNDip: number, p: number])[] = [
  [0.281, 0.5],
  [0.333, 0.2],
  [0.364, 0.1],
  [0.392, 0.05],
  [0.427, 0.02],
  [0.452, 0.01],
  [0.475, 0.005],
  [0.505, 0.002],
  [0.525, 0.001],
  [0.546, 0.0005],
  [0.565, 0.0002],
];

export function dipTail(rootNDip: number): number {
  const [first] = TAIL;
  if (!first || rootNDip <= first[0]) return 1;
  const upper = TAIL.findIndex(([value]) => value >= rootNDip);
  const place = upper === -1 ? TAIL.length - 1 : upper;
  const [[x0, p0], [x1, p1]] = [TAIL[place - 1]!, TAIL[place]!];
  return Math.max(1e-6, Math.exp(Math.log(p0) + ((rootNDip - x0) / (x1 - x0)) * Math.log(p1 / p0)));
}

/**
 * Do the times of a step fall into two groups? Two techniques in use often look like this.
 *
 * @param log ln(adjusted seconds), NaN where absent; `seconds` the same cases as recorded.
 */
export function bimodalityTest(stepId: string, log: Float64Array, seconds: Float64Array): PatternTest | null {
  const apart = untied(seconds);
  const sorted = log
    .map((value, place) => value + Math.log(apart[place]! / seconds[place]!))
    .filter((value) => !Number.isNaN(value))
    .sort();
  const n = sorted.length;
  if (n < auditThresholds.bimodalityFrom) return null;
  const split = bestSplit(sorted);
  const middle = (values: Float64Array) => plainBlanks(prose(Math.exp(values[values.length >> 1]!)));
  const [shorter, longer] = [sorted.slice(0, split), sorted.slice(split)];
  // Two groups that read the same are not two groups: equal times, or the same whole seconds.
  if (middle(shorter) === middle(longer)) return null;
  return {
    stepId,
    factor: 'bimodality',
    kind: 'bimodality',
    label: `two groups of times (about ${middle(shorter)} and about ${middle(longer)})`,
    earlierStepId: null,
    factId: null,
    nWith: longer.length,
    nWithout: shorter.length,
    p: dipTail(Math.sqrt(n) * dip(sorted)),
    effect: () => groupEffect(longer, shorter),
  };
}

/** Where to cut so that the two groups are furthest apart for their sizes (largest sum of squares between them). */
function bestSplit(sorted: Float64Array): number {
  const n = sorted.length;
  const total = sorted.reduce((sum, value) => sum + value, 0);
  let below = 0;
  let best = { split: 1, between: -Infinity };
  for (let split = 1; split < n; split += 1) {
    below += sorted[split - 1]!;
    const between = (below / split - (total - below) / (n - split)) ** 2 * split * (n - split);
    if (between > best.between) best = { split, between };
  }
  return best.split;
}

/**
 * Times rounded to whole seconds form heaps, and heaps look like groups: equal times are spread evenly over the second
 * they were rounded from.
 */
export function untied(seconds: Float64Array): Float64Array {
  const places = new Map<number, number[]>();
  seconds.forEach((value, place) => {
    if (Number.isInteger(value)) places.set(value, [...(places.get(value) ?? []), place]);
  });
  const result = seconds.slice();
  for (const [value, equal] of places)
    equal.forEach((place, order) => (result[place] = value + (order + 0.5) / equal.length - 0.5));
  return result;
}
