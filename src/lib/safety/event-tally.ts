import type { Case, Event, ListRecord } from '../model';

/** What is known about events in some operations. Counts of operations, except where said. */
export type EventTally = {
  /** Timed cases looked at, and in how many of them events were answered. */
  cases: number;
  answered: number;
  /** Events written down, near misses included: one case can have several. */
  events: number;
  /** Answered cases with an event of any weight; with a serious one; with near misses only. */
  withEvent: number;
  withSerious: number;
  /** Answered: none. Where no case says so, only the events were written down, and no rate can be made of them. */
  withNone: number;
  nearMissOnly: number;
  /** Serious events (not cases) that wait for a written review, untimed operations included. */
  unreviewedSerious: number;
  /** Answered cases with an event tied to the step. */
  byStep: Readonly<Record<string, number>>;
  /** Operated on the same lists but not timed. `null`: the lists do not say how many were operated. */
  untimed: { operated: number; answered: number; withEvent: number; withSerious: number } | null;
  /** Operations whose next-day course is known, of those operated on lists that say. `null`: never said. */
  nextDay: { known: number; of: number } | null;
};

export const isSerious = (event: Event): boolean => event.serious && !event.nearMiss;

/**
 * Counts events over answered cases: a case not answered is not a case without an event.
 * `lists` adds what list records say about operations that were not timed; `allCases` (default `cases`) tells
 * how many of a list were timed, where `cases` is only a part of the record.
 */
export function eventTally(
  cases: readonly Case[],
  lists: readonly ListRecord[] = [],
  allCases: readonly Case[] = cases,
): EventTally {
  const answered = cases.filter((one) => one.events !== null);
  const eventsOf = (one: Case): readonly Event[] => one.events ?? [];
  const byStep: Record<string, number> = {};
  for (const one of answered)
    for (const stepId of new Set(eventsOf(one).map((event) => event.stepId)))
      if (stepId !== null) byStep[stepId] = (byStep[stepId] ?? 0) + 1;
  const touched = listsOf(cases, lists);
  const waiting = (events: readonly Event[]) => events.filter((event) => isSerious(event) && !event.reviewed).length;
  return {
    cases: cases.length,
    answered: answered.length,
    events: answered.reduce((sum, one) => sum + eventsOf(one).length, 0),
    withEvent: answered.filter((one) => eventsOf(one).length > 0).length,
    withSerious: answered.filter((one) => eventsOf(one).some(isSerious)).length,
    withNone: answered.filter((one) => eventsOf(one).length === 0).length,
    nearMissOnly: answered.filter((one) => eventsOf(one).length > 0 && eventsOf(one).every((event) => event.nearMiss))
      .length,
    unreviewedSerious:
      cases.reduce((sum, one) => sum + waiting(eventsOf(one)), 0) +
      touched.reduce((sum, list) => sum + waiting(list.untimedEvents), 0),
    byStep,
    untimed: untimedOf(touched, allCases),
    nextDay: nextDayOf(touched),
  };
}

/** The list records on which these cases were done, in the order given. */
export function listsOf(cases: readonly Case[], lists: readonly ListRecord[]): ListRecord[] {
  const ids = new Set(cases.map((one) => one.listId));
  return lists.filter((list) => ids.has(list.id));
}

/**
 * Operations of one list that were not timed: operated less timed; never fewer than the events written down for them.
 * `null` where the list does not say how many were operated and no untimed event is written down.
 */
export function untimedOfList(list: ListRecord, cases: readonly Case[]): { operated: number; answered: number } | null {
  if (list.operated === null && list.untimedEvents.length === 0) return null;
  const timed = cases.filter((one) => one.listId === list.id).length;
  const operated = Math.max((list.operated ?? timed) - timed, list.untimedEvents.length);
  return { operated, answered: list.eventsAnsweredForAll ? operated : list.untimedEvents.length };
}

function untimedOf(lists: readonly ListRecord[], cases: readonly Case[]): EventTally['untimed'] {
  const known = lists.flatMap((list) => {
    const untimed = untimedOfList(list, cases);
    return untimed ? [{ list, ...untimed }] : [];
  });
  if (known.length === 0) return null;
  return {
    operated: known.reduce((sum, one) => sum + one.operated, 0),
    answered: known.reduce((sum, one) => sum + one.answered, 0),
    withEvent: known.reduce((sum, one) => sum + one.list.untimedEvents.length, 0),
    withSerious: known.reduce((sum, one) => sum + one.list.untimedEvents.filter(isSerious).length, 0),
  };
}

function nextDayOf(lists: readonly ListRecord[]): EventTally['nextDay'] {
  const said = lists.filter((list) => list.nextDayKnown !== null);
  if (said.length === 0) return null;
  return {
    known: said.reduce((sum, list) => sum + (list.nextDayKnown ?? 0), 0),
    of: said.reduce((sum, list) => sum + (list.operated ?? list.nextDayKnown ?? 0), 0),
  };
}
