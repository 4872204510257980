import { normalCdf } from './distributions';
import { requireNumbers, type Numbers } from './numbers';
import { midRanks } from './ranks';

export type AnsariBradley = {
  /** Sum over x of ranks counted from both ends inwards: large when x lies in the middle. */
  ab: number;
  /** Two-sided. */
  p: number;
  /** `cannot`: nothing varies; p 1. */
  method: 'exact' | 'normal' | 'cannot';
};

const EXACT_UP_TO = 50;

/**
 * Do two groups with one and the same middle differ in spread? (Ansari and Bradley, Ann. Math. Stat. 1960;31:1174.)
 * Exact without ties up to 50 values, else normal with tie-corrected variance and no continuity correction, as in R.
 * A shift of the middle upsets it: centre both groups first. For comparison only.
 * @throws on an empty group or a value that is not a number
 */
export function ansariBradley(x: Numbers, y: Numbers): AnsariBradley {
  requireNumbers('ansariBradley', x);
  requireNumbers('ansariBradley', y);
  const m = x.length;
  const total = m + y.length;
  const { ranks, ties } = midRanks([...Array.from(x), ...Array.from(y)]);
  const scores = Array.from(ranks, (rank) => Math.min(rank, total + 1 - rank));
  const ab = scores.slice(0, m).reduce((sum, score) => sum + score, 0);

  if (ties === 0 && total <= EXACT_UP_TO) {
    const counts = scoreSumCounts(scores, m);
    let all = 0;
    let below = 0;
    let above = 0;
    counts.forEach((count, sum) => {
      all += count;
      if (sum <= ab) below += count;
      if (sum >= ab) above += count;
    });
    return { ab, p: Math.min(1, (2 * Math.min(below, above)) / all), method: 'exact' };
  }
  const centre = scores.reduce((sum, score) => sum + score, 0) / total;
  const squares = scores.reduce((sum, score) => sum + (score - centre) ** 2, 0);
  const variance = (m * y.length * squares) / (total * (total - 1));
  if (!(variance > 0)) return { ab, p: 1, method: 'cannot' };
  return { ab, p: Math.min(1, 2 * normalCdf(-Math.abs(ab - m * centre) / Math.sqrt(variance))), method: 'normal' };
}

/** How many ways of choosing m of the whole-number scores give each sum. */
function scoreSumCounts(scores: readonly number[], m: number): Float64Array {
  const largest = scores.reduce((sum, score) => sum + score, 0);
  const chosen = Array.from({ length: m + 1 }, () => new Float64Array(largest + 1));
  chosen[0]![0] = 1;
  for (const score of scores)
    for (let size = m; size >= 1; size--) {
      const into = chosen[size]!;
      const out = chosen[size - 1]!;
      for (let sum = score; sum <= largest; sum++) into[sum] = into[sum]! + out[sum - score]!;
    }
  return chosen[m]!;
}
