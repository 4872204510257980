import { clopperPearson, zeroEventsUpper } from '../statistics';
import type { EventTally } from './event-tally';
import { safetyThresholds } from './thresholds';

/**
 * What the counts can and cannot rule out. Rates are shares of operations, 0..1.
 * `cases`: the timed cases asked about; `answered`: over how many of them the bound holds.
 */
export type EventBounds =
  | { kind: 'never-asked'; n: number; answered: 0 }
  | { kind: 'none'; n: number; answered: number; upper95: number; passUnseen: number }
  | { kind: 'some'; n: number; answered: number; events: number; estimate: number; low: number; high: number };

/** Of the rate the sentence about zero events takes as its example: 5 in 100. */
const EXAMPLE_RATE = 0.05;

/**
 * Bounds over answered cases only. None seen: exact one-sided 95 % bound 1 − 0.05^(1/n) (the "rule of three":
 * Hanley and Lippman-Hand, JAMA 1983;249:1743). Some: two-sided exact interval (Clopper and Pearson, Biometrika 1934).
 * `passUnseen`: the chance that a true rate of 5 in 100 shows no event in so many cases.
 * @param of `any`: events of every weight; `serious`: serious ones only
 */
export function eventBounds(tally: EventTally, of: 'any' | 'serious' = 'any'): EventBounds {
  const { cases: n, answered } = tally;
  if (answered === 0) return { kind: 'never-asked', n, answered: 0 };
  const events = of === 'any' ? tally.withEvent : tally.withSerious;
  if (events === 0)
    return {
      kind: 'none',
      n,
      answered,
      upper95: zeroEventsUpper(answered, safetyThresholds.level),
      passUnseen: (1 - EXAMPLE_RATE) ** answered,
    };
  const { low, high } = clopperPearson(events, answered, safetyThresholds.level);
  return { kind: 'some', n, answered, events, estimate: events / answered, low, high };
}
