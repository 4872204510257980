import { hasEyes } from '../audit';
import type { AimedEyes, Case, ListRecord } from '../model';
import { practiceThresholds as set } from './thresholds';

/** How long a window of certain eyes will take at the rate of the latest lists. */
export type Pace = {
  /** Cases of the window. */
  length: number;
  /** Counted cases with such eyes, of all counted, in the lists looked at. */
  such: number;
  of: number;
  /** Lists a window will take; `null` where lists are not known or none had such an eye. */
  lists: number | null;
  /** Days; `null` where fewer than two lists are dated. */
  days: number | null;
};

const DAY = 24 * 60 * 60 * 1000;

/**
 * From the counted cases of the start's time, whatever their eyes.
 * @param length cases of the window
 */
export function paceOf(counted: readonly Case[], lists: readonly ListRecord[], eyes: AimedEyes, length: number): Pace {
  const such = counted.filter((one) => hasEyes(one, eyes)).length;
  const rate = { length, such, of: counted.length };
  const ids = new Set(counted.flatMap(({ listId }) => listId ?? []));
  if (such === 0 || counted.some(({ listId }) => listId === null)) return { ...rate, lists: null, days: null };
  const needed = Math.max(set.windowLists, Math.ceil((length * ids.size) / such));
  const days = lists.filter(({ id }) => ids.has(id)).flatMap(({ when }) => dayOf(when));
  if (days.length < 2) return { ...rate, lists: needed, days: null };
  // From one list to the next, so that the first list does not count as a day without a list before it.
  const between = (Math.max(...days) - Math.min(...days)) / (days.length - 1);
  return { ...rate, lists: needed, days: Math.round((needed * between) / DAY) };
}

function dayOf(when: ListRecord['when']): number[] {
  if (when.kind === 'date') return [Date.parse(when.date)];
  return when.kind === 'month' ? [Date.parse(`${when.month}-15`)] : [];
}
