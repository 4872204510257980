import type { Case, ListRecord } from '../model';
import { cardsFor, rehearsalsAfter, type Rehearsal } from './cards';

/** Days after which the team has earned the next one: once a month. */
const MONTH = 30;
const DAY = 86_400_000;

type Said = Readonly<Record<string, string>>;

/**
 * The rehearsal for the general note: none while one was said aloud within the month; else one never said, in order
 * of the library, else the one said longest ago.
 * @param said rehearsal id → instant it was last said aloud
 */
export function rehearsalOfTheMonth(
  rehearsals: readonly Rehearsal[],
  procedureId: string,
  said: Said,
  now: string,
): Rehearsal | null {
  const own = cardsFor(rehearsals, procedureId);
  const at = ({ id }: Rehearsal) => Date.parse(said[id] ?? '') || 0;
  if (own.some((each) => Date.parse(now) - at(each) < MONTH * DAY)) return null;
  return [...own].sort((a, b) => at(a) - at(b))[0] ?? null;
}

/**
 * The rehearsal for the latest event in the record that has one, with the kind it is for; where two are for that kind, the
 * second once the first was said. None once all were said aloud since the day of that list; where the day is not known,
 * once they were ever said.
 * @param cases in any order; their events count whether the case counts or not
 */
export function rehearsalAfterEvent(
  rehearsals: readonly Rehearsal[],
  cases: readonly Case[],
  lists: readonly ListRecord[],
  said: Said,
): { rehearsal: Rehearsal; kind: string; procedureId: string } | null {
  const latest = [...cases].sort((a, b) => b.sequence - a.sequence);
  for (const { events, procedureId, listId } of latest)
    for (const { kind } of events ?? []) {
      const fitting = rehearsalsAfter(rehearsals, procedureId, kind);
      if (fitting.length === 0) continue;
      const when = lists.find(({ id }) => id === listId)?.when;
      const rehearsal = fitting.find(({ id }) => {
        const last = said[id];
        return last === undefined || (when?.kind === 'date' && last.slice(0, 10) < when.date);
      });
      return rehearsal ? { rehearsal, kind, procedureId } : null;
    }
  return null;
}
