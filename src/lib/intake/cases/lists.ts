import type { ListRecord } from '../../model';
import { parted, type Steps } from '../../turns';
import { textPointsToAPerson } from '../table/people';
import { weights } from '../weights';

/** A list before the store has given it an id; `key` ties the cases of one file to it (as the store's port has it). */
export type NewList = Omit<ListRecord, 'id'> & { key: string };

/** What a case says of its list: a name, a day or month, or a number that came from counting places. */
export type OnList = { list: string; when: string | null; draft: { listNumber: number | null } };

/**
 * Lists of a file, in the order of the cases. A list is one name on one day; without names, a day is a list
 * (a month is not: it holds many). Keys are made here, so no name of a person gets into one.
 */
export function* listsOf(
  cases: readonly OnList[],
): Steps<{ keys: (string | null)[]; lists: NewList[]; unnamed: number }> {
  const daysOf = new Map<string, Set<string>>();
  for (const part of parted(cases)) {
    yield part.length * weights.row;
    for (const { list, when } of part) {
      if (list !== '' && when !== null) daysOf.set(list, (daysOf.get(list) ?? new Set()).add(when));
    }
  }
  const lists = new Map<string, NewList>();
  const named = new Set<string>();
  const keys: (string | null)[] = [];
  for (const part of parted(cases)) {
    yield part.length * weights.row;
    for (const { list, when, draft } of part) {
      const { listNumber } = draft;
      const days = daysOf.get(list);
      // "1" and "2" on each day are the first and second list of that day; a name with one day is that list throughout.
      const day = list !== '' && days?.size === 1 ? ([...days][0] ?? null) : when;
      const isDay = day !== null && day.length === 10;
      if (list === '' && listNumber === null && !isDay) {
        keys.push(null);
        continue;
      }
      const identity =
        list !== '' ? `${list}\u0000${day ?? ''}` : listNumber !== null ? `number ${listNumber}` : `day ${day}`;
      const found = lists.get(identity) ?? newList(`L${lists.size + 1}`, list, day, listNumber);
      if (list !== '' && found.label === null) named.add(list);
      lists.set(identity, found);
      keys.push(found.key);
    }
  }
  return { keys, lists: [...lists.values()], unnamed: named.size };
}

function newList(key: string, list: string, day: string | null, listNumber: number | null): NewList {
  const number = /^\d{1,6}$/.test(list) ? Number(list) : listNumber;
  return {
    key,
    label: list === '' || textPointsToAPerson(list) ? null : list.slice(0, 60),
    when:
      day === null
        ? number === null
          ? { kind: 'unknown' }
          : { kind: 'number', number }
        : day.length === 10
          ? { kind: 'date', date: day }
          : { kind: 'month', month: day },
    operated: null,
    anaesthesia: null,
    machine: null,
    teaching: null,
    eventsAnsweredForAll: null,
    untimedEvents: [],
    nextDayKnown: null,
  };
}
