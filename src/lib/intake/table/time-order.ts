import type { Ask } from '../questions';

export type Ordered = { row: number; code: string; when: string | null; list: string | null; position: number | null };

/**
 * Order in time. Dated cases by date, then place in the list, then row; undated files keep the order of their rows,
 * turned round or unknown as answered.
 *
 * @param sheet a list sheet: one list, filled in place by place, so nothing is left to ask
 * @returns the indices in order of time, and whether that order is known.
 */
export function timeOrder(cases: readonly Ordered[], sheet: boolean, ask: Ask): { order: number[]; known: boolean } {
  const indices = cases.map((_, index) => index);
  if (cases.length < 2) return { order: indices, known: true };
  if (cases.every(({ when }) => when !== null) || (sheet && isOneList(cases)))
    return { order: byDate(cases, indices), known: true };
  const answer = ask({
    id: 'order',
    question: 'Not all cases have a date. Which way do the rows run?',
    options: [
      { value: 'oldest-first', label: 'oldest first' },
      { value: 'newest-first', label: 'newest first' },
      { value: 'none', label: 'in no order: nothing over time is said' },
    ],
    guess: numbersFall(cases) ? 'newest-first' : 'oldest-first',
    examples: cases.map(({ row, code }) => ({ row, text: code })),
  });
  return { order: answer === 'newest-first' ? indices.reverse() : indices, known: answer !== 'none' };
}

/** One list at most, and no place in it taken twice. */
function isOneList(cases: readonly Ordered[]): boolean {
  const places = cases.flatMap(({ position }) => position ?? []);
  const lists = new Set(cases.map(({ list, when }) => `${list ?? ''}\u0000${when ?? ''}`));
  return places.length > 0 && new Set(places).size === places.length && lists.size === 1;
}

function byDate(cases: readonly Ordered[], indices: readonly number[]): number[] {
  const day = (index: number) => cases[index]?.when ?? '';
  const falling = indices.filter((index) => index > 0 && day(index) < day(index - 1)).length;
  const rising = indices.filter((index) => index > 0 && day(index) > day(index - 1)).length;
  // A sheet kept newest first runs newest first within a day too.
  const rows = falling > rising ? [...indices].reverse() : [...indices];
  const lists = new Map<string, number>();
  const key = (index: number): string => `${day(index)}\u0000${cases[index]?.list ?? ''}`;
  const unplaced = new Set(indices.filter((index) => cases[index]?.position === null).map(key));
  for (const index of rows) if (!lists.has(key(index))) lists.set(key(index), lists.size);
  // Places order a list only where every case of it has one.
  const place = (index: number): number => (unplaced.has(key(index)) ? 0 : (cases[index]?.position ?? 0));
  return rows.sort((a, b) => {
    if (day(a) !== day(b)) return day(a) < day(b) ? -1 : 1;
    return (lists.get(key(a)) ?? 0) - (lists.get(key(b)) ?? 0) || place(a) - place(b);
  });
}

/** Case numbers that fall from row to row: the newest stands first. */
function numbersFall(cases: readonly Ordered[]): boolean {
  const numbers = cases.map(({ code }) => Number(/(\d+)\D*$/.exec(code)?.[1] ?? NaN));
  if (numbers.some(Number.isNaN)) return false;
  const falls = numbers.filter((number, index) => index > 0 && number < (numbers[index - 1] ?? 0)).length;
  return falls > 0.8 * (numbers.length - 1);
}
