import type { Case, Event, ListRecord, Stretch } from '../src/lib/model';
import { randomStream } from '../src/lib/statistics';

/**
 * A made-up operating life. Nothing here comes from a real record: the numbers below were chosen so that
 * every room has something in it, and the truth of each change stands written beside it.
 */
export type InventedStep = {
  id: string;
  /** Usual seconds, and the standard deviation of its logarithm. */
  usual: number;
  logSd: number;
  /** Chance that the step is done at all. */
  done?: number;
  /** Chance of going back to it once. */
  goesBack?: number;
  /** Factor on time for a fact: `{ nucleus: { hard: 1.3 } }`. */
  facts?: Record<string, Record<string, number>>;
  protectedParts?: readonly { id: string; seconds: number }[];
  waiting?: { reason: string; chance: number; seconds: number };
};

export type Stream = ReturnType<typeof randomStream>;

export const chance = (stream: Stream, p: number): boolean => stream.uniform() < p;

export const pick = <T>(stream: Stream, choices: readonly (readonly [T, number])[]): T => {
  let left = stream.uniform() * choices.reduce((sum, [, weight]) => sum + weight, 0);
  for (const [value, weight] of choices) {
    left -= weight;
    if (left <= 0) return value;
  }
  return (choices[choices.length - 1] as readonly [T, number])[0];
};

const tenth = (seconds: number) => Math.round(seconds * 10) / 10;

export type Made = { stretches: Stretch[]; returns: number };

/**
 * One operation on the recording's clock: steps in order with short gaps between, waiting and protected parts inside
 * or before their step, and now and then a step gone back to after another.
 * `factor(stepId)` multiplies a step's own time (the planted changes, the surgeon's day, this eye).
 */
export function operate(
  steps: readonly InventedStep[],
  facts: Record<string, string | number | boolean>,
  factor: (stepId: string) => number,
  stream: Stream,
): Stretch[] {
  const stretches: Stretch[] = [];
  let clock = 3 + 9 * stream.uniform();
  const add = (stepId: string | null, seconds: number, kind: Stretch['kind'], reason: string | null = null): void => {
    const [start, length] = [tenth(clock), Math.max(0.5, tenth(seconds))];
    stretches.push({ stepId, start, end: tenth(start + length), seconds: length, kind, reason });
    clock = start + length;
  };
  let again: { id: string; seconds: number } | null = null;

  for (const step of steps) {
    if (step.done !== undefined && !chance(stream, step.done)) continue;
    const ofThisEye = Object.entries(step.facts ?? {}).reduce(
      (all, [fact, levels]) => all * (levels[String(facts[fact])] ?? 1),
      1,
    );
    const outlier = chance(stream, 0.04) ? 1.6 + 0.6 * stream.uniform() : 1;
    const own = step.usual * ofThisEye * factor(step.id) * outlier * Math.exp(step.logSd * stream.normal());
    if (step.waiting && chance(stream, step.waiting.chance))
      add(step.id, step.waiting.seconds * Math.exp(0.5 * stream.normal()), 'waiting', step.waiting.reason);
    clock += 1.2 + 3 * stream.uniform();
    const back: boolean = chance(stream, step.goesBack ?? 0.02);
    add(step.id, back ? own * 0.75 : own, 'step');
    for (const kept of step.protectedParts ?? [])
      add(step.id, kept.seconds * Math.exp(0.25 * stream.normal()), 'protected', kept.id);
    if (again) {
      clock += 1.5;
      add(again.id, again.seconds, 'step');
      again = null;
    }
    if (back) again = { id: step.id, seconds: own * 0.25 };
  }
  return stretches;
}

/** A case with everything at its plainest; callers say what differs. */
export function invented(
  id: number,
  over: Partial<Case> & Pick<Case, 'code' | 'procedureId' | 'sequence' | 'stretches'>,
): Case {
  return {
    id: `case-${id}`,
    listId: null,
    position: null,
    orderKnown: true,
    facts: {},
    factChanges: [],
    hands: { whole: 'mine', steps: {} },
    returnsNoted: {},
    events: [],
    protectedSeen: {},
    energy: null,
    recording: null,
    source: { kind: 'typed' },
    leftOut: null,
    keptAsItIs: null,
    invented: true,
    version: 1,
    history: [],
    ...over,
  };
}

export const inventedList = (id: number, over: Partial<ListRecord>): ListRecord => ({
  id: `list-${id}`,
  label: null,
  when: { kind: 'unknown' },
  operated: null,
  anaesthesia: null,
  machine: null,
  teaching: null,
  eventsAnsweredForAll: null,
  untimedEvents: [],
  nextDayKnown: null,
  ...over,
});

export const inventedEvent = (over: Partial<Event> & Pick<Event, 'kind'>): Event => ({
  stepId: null,
  serious: false,
  nearMiss: false,
  noticed: 'during',
  reviewed: null,
  ...over,
});

/** A day n days after another, ISO 8601. */
export const dayAfter = (isoDay: string, days: number): string =>
  new Date(Date.parse(`${isoDay}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
