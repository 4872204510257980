import { runsFrom, type Goal } from '../model';
import { defaultDrill, drillWithoutRecording } from './defaults';
import type { Guidance } from './types';

/** The three parts of a practice month. */
export const MONTH_PARTS = ['watch', 'drill', 'lists'] as const;
export type MonthPart = (typeof MONTH_PARTS)[number];

const WEEK = 7 * 86_400_000;

/**
 * Where a goal is in its month: week 1 to watch, week 2 for the drill, from week 3 on the lists, however long they take.
 * Nothing falls due: each part stays open whatever the week is, and none waits for another to be done.
 * @returns the week since the goal was set, or since its draft was agreed, from 1 (a clock that was set back gives the first), and the part it falls in
 */
export function monthWeekOf(goal: Pick<Goal, 'setAt' | 'agreedAt'>, now: string): { week: number; part: MonthPart } {
  const week = Math.max(1, 1 + Math.floor((Date.parse(now) - Date.parse(runsFrom(goal))) / WEEK));
  return { week, part: MONTH_PARTS[week - 1] ?? 'lists' };
}

/** A look at the protected parts once so many cases are counted: half the window, so that the other half can be mended. */
export const LOOK_AT_PARTS = 10;

export type Drill = Guidance['drills'][number];

/**
 * The drills of the goal's step: first the one that answers most of the reasons its checkpoints were written for, then in
 * the order of the page. A step without a page has the one that needs no page.
 */
export function drillsFor(
  { checkpoints }: Pick<Goal, 'checkpoints'>,
  guidance: Guidance | null,
  twoToWatch = true,
): readonly [Drill, ...Drill[]] {
  const ids = new Set(checkpoints.map(({ id }) => id));
  const wanted = new Set((guidance?.checkpoints ?? []).filter(({ id }) => ids.has(id)).flatMap(({ fits }) => fits));
  const shared = ({ fits }: Drill) => fits.filter((fit) => wanted.has(fit)).length;
  const [first, ...others] = possibleDrills(guidance?.drills ?? [], twoToWatch);
  const [best, ...rest] = [first, ...others].sort((a, b) => shared(b) - shared(a));
  return [best ?? first, ...rest];
}

/** Those of the page; without two cases to watch, those that need no recording of the surgeon's own. Never none. */
export function possibleDrills(drills: readonly Drill[], twoToWatch: boolean): readonly [Drill, ...Drill[]] {
  const [first, ...others] = twoToWatch ? drills : drills.filter(({ where }) => where !== 'video');
  return first ? [first, ...others] : [twoToWatch ? defaultDrill : drillWithoutRecording];
}
