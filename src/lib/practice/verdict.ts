import type { Effect, ResultKind } from '../model';
import { practiceThresholds as set } from './thresholds';

export type Evidence = {
  against: Effect | null;
  plain: Effect | null;
  rest: Effect | null;
  /** The rest is clearly shorter (one-sided 95 %). */
  restShorter: boolean;
  /** The rest clearly took longer (one-sided 95 %). */
  restLonger: boolean;
  /** The step itself took clearly less time (one-sided 95 %, corrected). */
  ownShorter: boolean;
  /** Upper end of the corrected interval with λ times the rest taken off; `null` where not needed. */
  difficultyOffHigh: number | null;
  /** log, ≤ 0; `null`: not known. */
  steer: number | null;
};

/** The first line that applies. Nothing is claimed from the step alone: an easier month looks the same. */
export function verdictOf(evidence: Evidence): ResultKind {
  const { against, plain, rest, restShorter, restLonger, ownShorter, difficultyOffHigh, steer } = evidence;
  if (!against || !plain) return 'cannot-tell';
  const below = against.high < 0;
  if (
    below &&
    plain.estimate <= against.estimate * set.ownPart &&
    (!restShorter || (difficultyOffHigh !== null && difficultyOffHigh < 0)) &&
    (!restLonger || ownShorter)
  )
    return 'shorter';
  if (rest && restShorter && (plain.high < 0 || below)) return 'all-round';
  if (below) return 'rest-longer';
  if (against.rawLow > 0 && plain.rawEstimate >= against.rawEstimate * set.ownPartLonger) return 'longer';
  if (against.low < 0 && against.high > 0 && steer !== null && against.low > steer) return 'little-change';
  return 'cannot-tell';
}
