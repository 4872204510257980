import type { Case, Hands } from '../model';
import { clopperPearson } from '../statistics';
import { safetyThresholds } from './thresholds';

export type Takeovers = { taken: number; of: number; estimate: number; low: number; high: number };

/** Who did the step: as stated for the step, else for the whole case. */
export const handsOf = (one: Case, stepId: string): Hands => one.hands.steps[stepId] ?? one.hands.whole;

/**
 * In how many of these cases the step was taken over: an outcome beside the times. Pass every case operated in the
 * span, also those not counted: a step taken over has no step time. `null` without cases.
 * Shares with the exact interval of Clopper and Pearson (1934).
 */
export const takeovers = (cases: readonly Case[], stepId: string): Takeovers | null =>
  shareOf(cases, (one) => handsOf(one, stepId) === 'taken-over');

/** In how many of these cases anything was taken over, a step or the whole. */
export const takeoversOfAny = (cases: readonly Case[]): Takeovers | null =>
  shareOf(cases, ({ hands: { whole, steps } }) => [whole, ...Object.values(steps)].includes('taken-over'));

function shareOf(cases: readonly Case[], was: (one: Case) => boolean): Takeovers | null {
  if (cases.length === 0) return null;
  const taken = cases.filter(was).length;
  const { low, high } = clopperPearson(taken, cases.length, safetyThresholds.level);
  return { taken, of: cases.length, estimate: taken / cases.length, low, high };
}
