import { auditThresholds } from '../../audit/thresholds';
import type { Case, EyeFact, Goal, SurgeonRecord } from '../../model';
import { procedureOf } from '../../model';
import { casesWithIds } from '../../practice';
import { answerEvents, completeFacts, GO_ON_WITH_NOTE, goOnTiming, reviewCases, reviewEvent } from '../../words';
import { eventKindWords } from '../forms/event-fields';
import { goalWindow } from '../goals/goal-window';
import { goalOfReview, waitingForReview } from '../goals/waiting-for-review';
import { waitingEvents } from './waiting-events';

/** Something begun or owed, and where it is done. */
export type WaitingLink = { words: string; href: string };

/** What was begun and is kept as a draft: a note, recordings being timed, by the code of their case. */
export type Begun = { note: boolean; timings: readonly string[] };

/** More lists than this are behind by more than an evening. */
const LISTS = 3;

/**
 * Everything that waits, each as the link that does it, a list at a time, the latest first: events that owe a review
 * (beside the one that Now itself leads to), cases to review, and in the cases the goal counts what was not answered:
 * events, and facts of the eye that the result is adjusted for.
 */
export function whatWaits(record: SurgeonRecord, begun: Begun): WaitingLink[] {
  const goal = goalOfReview(record);
  return [
    ...waitingEvents(record)
      .slice(1)
      .map(({ kind, procedure, of, href }) => ({ words: reviewEvent(eventKindWords(kind, procedure), of), href })),
    ...(goal ? ofGoal(record, goal) : []),
    ...(begun.note ? [{ words: GO_ON_WITH_NOTE, href: '/reflect/new?draft=yes' }] : []),
    ...begun.timings.map((code) => ({
      words: goOnTiming(code),
      href: `/cases/time?${new URLSearchParams({ code })}`,
    })),
  ];
}

function ofGoal(record: SurgeonRecord, goal: Goal): WaitingLink[] {
  const counted = casesWithIds(record.cases, goalWindow(record, goal).counted);
  const reviews = new Set(waitingForReview(record, goal));
  const facts = adjustedFor(record, goal);
  const missing = (one: Case) => facts.filter(({ id }) => one.facts[id] === undefined).map(({ label }) => label);
  return [
    ...byList(counted.filter(({ id }) => reviews.has(id))).map((cases) => ({
      words: reviewCases(cases.map(({ code }) => code)),
      href: `/reflect/new?${new URLSearchParams(cases.map(({ id }) => ['case', id]))}`,
    })),
    ...byList(counted.filter(({ events }) => events === null)).map((cases) => ({
      words: answerEvents(cases.map(({ code }) => code)),
      href: placeOf(cases, '#events'),
    })),
    ...factsToComplete(
      counted.filter((one) => missing(one).length > 0),
      missing,
    ),
  ];
}

/** One link for all of them, to the latest list: the next one is named once that is complete. */
function factsToComplete(cases: readonly Case[], missing: (one: Case) => string[]): WaitingLink[] {
  const [latest] = byList(cases);
  if (!latest) return [];
  const named = latest.map((one) => ({ code: one.code, facts: missing(one) }));
  return [{ words: completeFacts(named, cases.length - latest.length), href: placeOf(latest, '') }];
}

/** Facts asked in each row that are there in enough baseline cases to be used: a gap in any other costs nothing. */
function adjustedFor(record: SurgeonRecord, goal: Goal): EyeFact[] {
  const baseline = casesWithIds(record.cases, goal.baseline.caseIds);
  return procedureOf(record, goal.procedureId).facts.filter(
    ({ id, asked }) =>
      asked === 'row' &&
      baseline.length > 0 &&
      baseline.filter(({ facts }) => facts[id] === undefined).length <= auditThresholds.missingShare * baseline.length,
  );
}

/** Where a list is known its page takes all its rows at once. */
const placeOf = ([first]: readonly Case[], part: string): string =>
  first?.listId ? `/cases/lists/${first.listId}` : `/cases/${first?.id}${part}`;

/** The latest lists first, their cases in order; a case without a list stands alone. */
function byList(cases: readonly Case[]): Case[][] {
  const lists = new Map<string, Case[]>();
  for (const one of [...cases].sort((a, b) => a.sequence - b.sequence)) {
    const key = one.listId ?? one.id;
    lists.set(key, [...(lists.get(key) ?? []), one]);
  }
  return [...lists.values()].reverse().slice(0, LISTS);
}
