import type { ListRecord } from '../model';

const WEEK = 7 * 86_400_000;

/** Whole weeks between the latest dated list and the one before it; `null` with fewer than two dated lists. */
export function weeksBeforeLatest(lists: readonly ListRecord[]): number | null {
  const days = lists.flatMap(({ when }) => (when.kind === 'date' ? [Date.parse(`${when.date}T00:00:00Z`)] : []));
  const [latest, before] = [...new Set(days)].sort((a, b) => b - a);
  return latest === undefined || before === undefined ? null : Math.floor((latest - before) / WEEK);
}
