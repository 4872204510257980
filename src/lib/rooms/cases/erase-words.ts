import {
  type Case,
  type Erased,
  type Goal,
  type GoalPart,
  type ListRecord,
  procedureOf,
  type SurgeonRecord,
} from '../../model';
import { spanOfCases } from '../../practice';
import { counted, listed } from '../../format';
import { eventWordsOf } from '../forms/event-fields';
import { goalWindow } from '../goals/goal-window';
import { type GoalStanding } from '../goals/goal-standing';

/** Which goals a case belongs to, by the spans in which After twenty looks for events. */
export function partsOfGoals(one: Case, record: SurgeonRecord): { goalId: string; part: GoalPart }[] {
  return record.goals
    .filter(({ procedureId }) => procedureId === one.procedureId)
    .flatMap((goal) => [
      ...(goal.baseline.caseIds.includes(one.id) ? [{ goalId: goal.id, part: 'baseline' as const }] : []),
      ...(inWindow(one, goal, record) ? [{ goalId: goal.id, part: 'window' as const }] : []),
    ]);
}

/** A window that is still filling extends past its latest counted case, so what came after that case is in it too. */
function inWindow(one: Case, goal: Goal, record: SurgeonRecord): boolean {
  const { full, windows, running } = goalWindow(record, goal);
  const span = spanOfCases(record.cases, windows[0] ?? running, goal.procedureId);
  if (span.some(({ id }) => id === one.id)) return true;
  const begun = span.at(-1)?.sequence ?? goal.afterSequence;
  return !full && one.sequence > begun && (one.listId === null || one.listId !== goal.listAtStart);
}

/** What leaves the record with a case, in whole sentences, to be read before it is erased. */
export function leavesWith(one: Case, record: SurgeonRecord): string[] {
  if (one.events === null) return [];
  const procedure = procedureOf(record, one.procedureId);
  const events = one.events.map(
    (event) =>
      `The event leaves the record${event.reviewed ? ', and your review of it' : ''}: ${eventWordsOf(event, procedure)}.`,
  );
  const told = one.listId !== null || partsOfGoals(one, record).length > 0;
  return [
    ...(events.length > 0 ? events : ['The answer that there was no event leaves the record.']),
    told
      ? 'From then on every count of events covers fewer cases. After twenty and the report will therefore say that a case with events answered was erased, and nothing else about it.'
      : 'From then on every count of events covers fewer cases.',
  ];
}

/** That cases with events answered are gone from a baseline and a window, so that the counts are lower; empty where none is. */
export function erasedOfGoal({ goal, stored }: GoalStanding, cases: readonly Case[]): string[] {
  const there = new Set(cases.map(({ id }) => id));
  const gone = (ids: readonly string[]) => ids.filter((id) => !there.has(id)).length;
  const { baseline, window } = goal.erased ?? {};
  const unknown = {
    baseline: gone(goal.baseline.caseIds) - (baseline?.cases ?? 0),
    window: gone(stored.at(-1)?.windowIds ?? []) - (window?.cases ?? 0),
  };
  return [
    ...answeredWords([
      [baseline?.answered ?? 0, 'baseline case', 'baseline cases'],
      [window?.answered ?? 0, 'case of the window', 'cases of the window'],
    ]),
    ...unknownWords([
      [unknown.baseline, 'baseline case', 'baseline cases'],
      [unknown.window, 'case of the window', 'cases of the window'],
    ]),
  ];
}

/** The same of the lists of a month or a year. */
export const erasedOfLists = (lists: readonly ListRecord[]): string[] =>
  answeredWords([[erasedIn(lists).answered, 'case of these lists', 'cases of these lists']]);

/** What was erased of these lists, in all. */
export const erasedIn = (lists: readonly ListRecord[]): Erased =>
  lists.reduce(
    (sum, { erased }) => ({
      cases: sum.cases + (erased?.cases ?? 0),
      answered: sum.answered + (erased?.answered ?? 0),
    }),
    { cases: 0, answered: 0 },
  );

type Count = readonly [number, string, string];
const some = (counts: readonly Count[]) => counts.filter(([n]) => n > 0);
const totalOf = (counts: readonly Count[]) => some(counts).reduce((sum, [n]) => sum + n, 0);
const wordsOf = (counts: readonly Count[]) => listed(some(counts).map(([n, one, many]) => counted(n, one, many)));

function answeredWords(counts: readonly Count[]): string[] {
  const total = totalOf(counts);
  if (total === 0) return [];
  return [`Erased, with events answered: ${wordsOf(counts)}. The counts of events are lower for that reason.`];
}

/** Gone before this was counted, or taken back with a file. */
function unknownWords(counts: readonly Count[]): string[] {
  const total = totalOf(counts);
  if (total === 0) return [];
  return [
    `No longer in the record: ${wordsOf(counts)}; whether events were answered in ${total === 1 ? 'it' : 'them'} is not known.`,
  ];
}
