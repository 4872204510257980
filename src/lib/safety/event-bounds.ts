import { clopperPearson, zeroEventsUpper } from '../statistics';
import type { EventTally } from './event-tally';
import { safetyThresholds } from './thresholds';

/**
 * What the counts can and cannot rule out. Rates are shares of operations, 0..1.
 * `cases`: the timed cases asked about; `answered`: over how many of them the bound holds.
 * `only-events`: no case is answered with none, so only the events were written down and there is no rate.
 * `some`: `mayBelong` further cases have an event tied to no step; the interval holds whether they belong here or not.
 */
export type EventBounds =
  | { kind: 'never-asked'; n: number; answered: 0 }
  | { kind: 'only-events'; n: number; answered: number; events: number; mayBelong: number }
  | { kind: 'none'; n: number; answered: number; upper95: number; passUnseen: number }
  | { kind: 'some'; n: number; answered: number; events: number; mayBelong: number; low: number; high: number };

/** What bounds are made of; a whole tally, or that of one step. */
export type BoundedTally = Pick<EventTally, 'cases' | 'answered' | 'withEvent' | 'withNone'> & { mayBelong?: number };

/** Of the rate the sentence about zero events takes as its example: 5 in 100. */
const EXAMPLE_RATE = 0.05;

/**
 * Bounds over answered cases only. None seen: exact one-sided 95 % bound 1 − 0.05^(1/n) (the "rule of three":
 * Hanley and Lippman-Hand, JAMA 1983;249:1743). Some: two-sided exact interval (Clopper and Pearson, Biometrika 1934);
 * its lower end without the events that may belong here, its upper end with them.
 * `passUnseen`: the chance that a true rate of 5 in 100 shows no event in so many cases.
 */
export function eventBounds({
  cases: n,
  answered,
  withEvent: events,
  withNone,
  mayBelong = 0,
}: BoundedTally): EventBounds {
  if (answered === 0) return { kind: 'never-asked', n, answered: 0 };
  if (withNone === 0) return { kind: 'only-events', n, answered, events, mayBelong };
  if (events + mayBelong === 0)
    return {
      kind: 'none',
      n,
      answered,
      upper95: zeroEventsUpper(answered, safetyThresholds.level),
      passUnseen: (1 - EXAMPLE_RATE) ** answered,
    };
  const bounds = (count: number) => clopperPearson(count, answered, safetyThresholds.level);
  return {
    kind: 'some',
    n,
    answered,
    events,
    mayBelong,
    low: bounds(events).low,
    high: bounds(events + mayBelong).high,
  };
}
