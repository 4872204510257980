import type { Case, ListRecord } from '../../model';
import { monthWords } from '../forms/when-words';

/** The months of the lists of some cases, first to latest, in words; `null` where no list of them is dated. */
export function monthsOfCases(cases: readonly Pick<Case, 'listId'>[], lists: readonly ListRecord[]): string | null {
  const on = new Set(cases.map(({ listId }) => listId));
  const months = lists
    .filter(({ id }) => on.has(id))
    .flatMap(({ when }) => (when.kind === 'date' ? [when.date.slice(0, 7)] : when.kind === 'month' ? [when.month] : []))
    .sort();
  const [first, last] = [months[0], months.at(-1)];
  if (first === undefined || last === undefined) return null;
  return first === last ? monthWords(first) : `${monthWords(first)} to ${monthWords(last)}`;
}
