import type { ListRecord } from '../model';
import { rulesThresholds } from './thresholds';

type Dated = readonly Pick<ListRecord, 'when'>[];

const WEEK = 7 * 86_400_000;

/** Whole weeks between the latest dated list and the one before it; `null` with fewer than two dated lists. */
export function weeksBeforeLatest(lists: Dated): number | null {
  const [latest, before] = [...new Set(daysOf(lists))].sort((a, b) => b - a);
  return latest === undefined || before === undefined ? null : weeksBetween(before, latest);
}

/** Whole weeks from the latest dated list to now where that is a break; else `null`. */
export function breakSinceLatest(lists: Dated, now: string): number | null {
  const weeks = weeksBetween(Math.max(...daysOf(lists)), Date.parse(now));
  return Number.isFinite(weeks) && weeks >= rulesThresholds.breakWeeks ? weeks : null;
}

const daysOf = (lists: Dated): number[] =>
  lists.flatMap(({ when }) => (when.kind === 'date' ? [Date.parse(`${when.date}T00:00:00Z`)] : []));

const weeksBetween = (from: number, to: number): number => Math.floor((to - from) / WEEK);
