import { dip } from './dip';
import { groupEffect } from './group-effect';
import type { PatternTest } from './pattern-test';
import { auditThresholds } from './thresholds';

/**
 * How rarely one flat hump of n values shows a dip of this size: √n · dip against its upper tail, from 40,000 seeded
 * draws of 400 uniform values. The uniform is the single-humped shape with the largest dips and 400 gives slightly
 * larger ones than fewer cases, so a p read here is on the safe side. A table, not a simulation in each audit:
 * a p small enough for a family of two hundred tests would need ten thousand draws.
 */
const TAIL: readonly (readonly [rootNDip: number, p: number])[] = [
  [0.366, 0.5],
  [0.441, 0.2],
  [0.486, 0.1],
  [0.526, 0.05],
  [0.576, 0.02],
  [0.61, 0.01],
  [0.641, 0.005],
  [0.684, 0.002],
  [0.706, 0.001],
  [0.742, 0.0005],
];

export function dipTail(rootNDip: number): number {
  const [first] = TAIL;
  if (!first || rootNDip <= first[0]) return 1;
  const upper = TAIL.findIndex(([value]) => value >= rootNDip);
  const place = upper === -1 ? TAIL.length - 1 : upper;
  const [[x0, p0], [x1, p1]] = [TAIL[place - 1]!, TAIL[place]!];
  return Math.max(1e-6, Math.exp(Math.log(p0) + ((rootNDip - x0) / (x1 - x0)) * Math.log(p1 / p0)));
}

/** Do the times of a step fall into two groups? Two techniques in use often look like this. */
export function twoHumpsTest(stepId: string, log: Float64Array): PatternTest | null {
  const sorted = log.filter((value) => !Number.isNaN(value)).sort();
  const n = sorted.length;
  if (n < auditThresholds.humpsFrom) return null;
  const split = bestSplit(sorted);
  const seconds = (values: Float64Array) => Math.round(Math.exp(values[values.length >> 1]!));
  const [shorter, longer] = [sorted.slice(0, split), sorted.slice(split)];
  return {
    stepId,
    factor: 'two-humps',
    kind: 'two-humps',
    label: `two groups of times, about ${seconds(shorter)} s and about ${seconds(longer)} s`,
    earlierStepId: null,
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
