import { runsFrom, type Case, type Goal, type LeftOutReason, type ListRecord, type Procedure } from '../model';
import { hasEyes, inOrder, knownLists } from '../audit';
import { listNumbers } from '../audit/list-numbers';
import { median } from '../statistics';
import { countingRule } from './counted-for-goal';
import type { Look } from './effect';
import { casesWithIds } from './span';
import { practiceThresholds as set } from './thresholds';

/** What of a goal decides which cases count. */
export type Counting = Pick<
  Goal,
  'procedureId' | 'stepId' | 'eyes' | 'windowLength' | 'afterSequence' | 'listAtStart' | 'decisions'
> & {
  baseline: Pick<Goal['baseline'], 'caseIds'>;
  /** Lists known to have been operated before this day do not count; left out where cases alone decide. */
  setAt?: string;
  /** The same of a draft that was agreed later. */
  agreedAt?: string;
  /** Cases of the window whose result was read last, and which look that was. */
  read?: { look: Look; windowIds: readonly string[] } | null;
};

export type GoalWindow = {
  /** Counted cases since the goal was set, in order, whatever window they fall in; none after the last following one. */
  counted: string[];
  /** Lists the first window touches so far. */
  lists: number;
  need: { cases: number; lists: number };
  /** false: counted by cases alone. */
  listsKnown: boolean;
  /** The first window has its cases and its lists. */
  full: boolean;
  baselineIds: string[];
  /** Full windows only: the first, then up to six following windows. */
  windows: string[][];
  /** Cases of the window that is filling: the first, or the following twenty. */
  running: string[];
  /** Cases of the first window (filling or full) left out, before or after their times were seen. */
  leftOut: { before: number; after: number; ids: string[]; reasons: Partial<Record<LeftOutReason, number>> };
  /** Cases that came into the record after the goal began to run but were operated before it: they count for neither period. */
  operatedBefore: number;
};

/**
 * Which cases make the window of a goal: the next 20 (or 40) counted cases over at least four lists (three where lists
 * are longer than twenty), beginning with a new list; full when both hold. The following windows come after it without
 * a break, each by the same rule. Cases whose place in time is not known do not count. A window whose result was read
 * stays that window: a case erased or changed since leaves it shorter, and no later case takes its place.
 * @param look `second`: the window extended to forty; from the goal's decisions unless said
 */
export function windowOf(
  goal: Counting,
  cases: readonly Case[],
  lists: readonly ListRecord[],
  procedure: Procedure,
  look: Look = goal.decisions.some((decision) => decision.kind === 'second-look') ? 'second' : 'first',
): GoalWindow {
  const arrived = laterCases(goal, cases);
  const early = listsBefore(goal, lists);
  const later = arrived.filter((one) => one.listId === null || !early.has(one.listId));
  const baseline = casesWithIds(cases, goal.baseline.caseIds);
  const length = look === 'second' ? 2 * set.followingLength : goal.windowLength;
  // What is typical is read from the baseline cases and from the first cases, so that later ones never move a window
  // that was full.
  const counts = countingRule(
    baseline.length > 0 ? baseline : later.slice(0, length),
    procedure,
    goal.stepId,
    goal.eyes,
  );
  const countable = (one: Case) => one.orderKnown && counts(one);
  const firstOnes = firstOf(later, countable, length);
  const listsKnown = firstOnes.length === 0 || listNumbers(firstOnes, lists).listsFrom !== 'blocks';
  const fewest = longLists(baseline.length > 0 ? baseline : firstOnes, lists) ? set.windowListsLong : set.windowLists;
  const need = { cases: length, lists: listsKnown ? fewest : 0 };
  const begun = begunWindow(goal, look, cases, later, countable);
  const { windows, running } = parted(begun, countable, need);
  const counted = [...windows.flat(), ...running];
  const first = windows[0] ?? running;
  return {
    counted: idsOf(counted),
    lists: knownLists(first),
    need,
    listsKnown,
    full: windows.length > 0,
    baselineIds: [...goal.baseline.caseIds],
    windows: windows.map(idsOf),
    running: idsOf(running),
    leftOut: leftOutOf(
      later.filter((one) => !goal.eyes || hasEyes(one, goal.eyes)),
      windows[0] ?? null,
    ),
    operatedBefore: arrived.length - later.length,
  };
}

/** Lists known by their day or month to lie before the day from which the goal runs. */
function listsBefore({ setAt, agreedAt }: Counting, lists: readonly ListRecord[]): Set<string> {
  const start = setAt === undefined ? '' : runsFrom({ setAt, agreedAt });
  const before = ({ when }: ListRecord): boolean =>
    (when.kind === 'date' && when.date < start.slice(0, 10)) ||
    (when.kind === 'month' && when.month < start.slice(0, 7));
  return new Set(lists.filter(before).map(({ id }) => id));
}

/** Cases after the goal was set, from the next new list on: the rest of a list under way belongs to neither. */
function laterCases(goal: Counting, cases: readonly Case[]): Case[] {
  const own = cases.filter((one) => one.procedureId === goal.procedureId);
  const begun = new Set(own.filter((one) => one.sequence <= goal.afterSequence).map((one) => one.listId));
  const start = new Set(goal.baseline.caseIds);
  return inOrder(own).filter(
    (one) =>
      one.sequence > goal.afterSequence &&
      !start.has(one.id) &&
      (one.listId === null || (one.listId !== goal.listAtStart && !begun.has(one.listId))),
  );
}

function firstOf(cases: readonly Case[], countable: (one: Case) => boolean, atMost: number): Case[] {
  const found: Case[] = [];
  for (const one of cases) {
    if (found.length === atMost) break;
    if (countable(one)) found.push(one);
  }
  return found;
}

type Begun = { windows: Case[][]; running: Case[]; later: readonly Case[] };

/** What is fixed of the windows because its result was read: all of the first, or the first twenty of a second look. */
function begunWindow(
  { read }: Counting,
  look: Look,
  cases: readonly Case[],
  later: readonly Case[],
  countable: (one: Case) => boolean,
): Begun {
  if (!read) return { windows: [], running: [], later };
  const ids = new Set(read.windowIds);
  const there = cases.filter(({ id }) => ids.has(id));
  const last = there.reduce((latest, { sequence }) => Math.max(latest, sequence), -Infinity);
  const fixed = inOrder(there.filter(countable));
  return {
    windows: read.look === look ? [fixed] : [],
    running: read.look === look ? [] : fixed,
    later: later.filter(({ id, sequence }) => !ids.has(id) && sequence > last),
  };
}

function parted(begun: Begun, countable: (one: Case) => boolean, need: GoalWindow['need']) {
  const windows = [...begun.windows];
  let running = [...begun.running];
  for (const one of begun.later) {
    if (windows.length > set.followingAtMost) break;
    if (!countable(one)) continue;
    running.push(one);
    const length = windows.length === 0 ? need.cases : set.followingLength;
    if (running.length < length || knownLists(running) < need.lists) continue;
    windows.push(running);
    running = [];
  }
  return { windows, running };
}

/** Are these lists typically longer than twenty operations (operated where known, else counted here)? */
function longLists(counted: readonly Case[], lists: readonly ListRecord[]): boolean {
  const sizes = new Map<string, number>();
  for (const one of counted) if (one.listId !== null) sizes.set(one.listId, (sizes.get(one.listId) ?? 0) + 1);
  if (sizes.size === 0) return false;
  const operated = [...sizes].map(([id, timed]) => lists.find((list) => list.id === id)?.operated ?? timed);
  return median(operated) > set.longList;
}

function leftOutOf(later: readonly Case[], window: readonly Case[] | null): GoalWindow['leftOut'] {
  const last = window?.at(-1)?.sequence ?? Infinity;
  const out = later.flatMap((one) =>
    one.leftOut !== null && one.sequence <= last ? [{ id: one.id, ...one.leftOut }] : [],
  );
  const reasons: Partial<Record<LeftOutReason, number>> = {};
  for (const { reason } of out) reasons[reason] = (reasons[reason] ?? 0) + 1;
  const after = out.filter((one) => one.timesSeen).length;
  return { before: out.length - after, after, ids: out.map((one) => one.id), reasons };
}

const idsOf = (cases: readonly Case[]) => cases.map((one) => one.id);
