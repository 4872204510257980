import { parted, sorted, type Steps } from '../../turns';
import type { Ask } from '../questions';
import { intakeThresholds } from '../thresholds';
import { weights } from '../weights';

/** What of a case tells its place in time; `list` is empty where none is named. */
export type Ordered = {
  when: string | null;
  list: string;
  draft: { code: string };
  case: { row: number; position: number | null };
};

/**
 * Order in time. Dated cases by date, then place in the list, then row; undated files keep the order of their rows,
 * turned round or unknown as answered.
 *
 * @param sheet a list sheet: one list, filled in place by place, so nothing is left to ask
 * @returns the indices in order of time, and whether that order is known.
 */
export function* timeOrder(
  cases: readonly Ordered[],
  sheet: boolean,
  ask: Ask,
): Steps<{ order: number[]; known: boolean }> {
  const indices = cases.map((_, index) => index);
  if (cases.length < 2) return { order: indices, known: true };
  if (cases.every(({ when }) => when !== null) || (sheet && isOneList(cases)))
    return { order: yield* byDate(cases), known: true };
  const answer = ask({
    id: 'order',
    question: 'Not all cases have a date. Which way do the rows run?',
    options: [
      { value: 'oldest-first', label: 'oldest first' },
      { value: 'newest-first', label: 'newest first' },
      { value: 'none', label: 'in no order: nothing over time is said' },
    ],
    guess: (yield* numbersFall(cases)) ? 'newest-first' : 'oldest-first',
    examples: cases
      .slice(0, intakeThresholds.examples)
      .map(({ case: { row }, draft: { code } }) => ({ row, text: code })),
  });
  return { order: answer === 'newest-first' ? indices.reverse() : indices, known: answer !== 'none' };
}

/** One list at most, and no place in it taken twice. */
function isOneList(cases: readonly Ordered[]): boolean {
  const places = cases.flatMap(({ case: { position } }) => position ?? []);
  const lists = new Set(cases.map(({ list, when }) => `${list}\u0000${when ?? ''}`));
  return places.length > 0 && new Set(places).size === places.length && lists.size === 1;
}

function* byDate(cases: readonly Ordered[]): Steps<number[]> {
  let [rising, falling] = [0, 0];
  const lists = new Map<string, { at: number; placed: boolean }>();
  const keyed: { index: number; day: string; list: { at: number; placed: boolean }; place: number }[] = [];
  for (const [
    index,
    {
      when,
      list,
      case: { position },
    },
  ] of cases.entries()) {
    yield weights.row;
    const [day, before] = [when ?? '', cases[index - 1]?.when ?? ''];
    if (index > 0 && day < before) falling += 1;
    if (index > 0 && day > before) rising += 1;
    const key = `${day}\u0000${list}`;
    const found = lists.get(key) ?? { at: 0, placed: true };
    lists.set(key, found);
    // Places order a list only where every case of it has one.
    if (position === null) found.placed = false;
    keyed.push({ index, day, list: found, place: position ?? 0 });
  }
  // A sheet kept newest first runs newest first within a day too.
  const rows = falling > rising ? keyed.reverse() : keyed;
  let next = 0;
  for (const part of parted(rows)) {
    yield part.length * weights.row;
    for (const { list } of part) {
      if (list.at === 0) list.at = next += 1;
    }
  }
  const order = yield* sorted(rows, (a, b) => {
    if (a.day !== b.day) return a.day < b.day ? -1 : 1;
    return a.list.at - b.list.at || (a.list.placed ? a.place - b.place : 0);
  });
  return order.map(({ index }) => index);
}

/** Case numbers that fall from row to row: the newest stands first. */
function* numbersFall(cases: readonly Ordered[]): Steps<boolean> {
  let [falls, before]: [number, number | null] = [0, null];
  let numbered = true;
  for (const {
    draft: { code },
  } of cases) {
    yield weights.row;
    const digits = /(\d+)\D*$/.exec(code.slice(-intakeThresholds.codeLength))?.[1];
    numbered &&= digits !== undefined;
    const number = Number(digits);
    if (before !== null && number < before) falls += 1;
    before = number;
  }
  return numbered && falls > 0.8 * (cases.length - 1);
}
