import type { Case, ListRecord } from '../../model';
import { dayWords, monthWords } from '../forms/when-words';

/** Days or months of a stretch's first and last case, ISO; `null` where one case has none. */
type Span = { first: string; last: string } | null;

/**
 * When two stretches were, as a sentence goes on: by their months ("in January to June 2026"), by their days where they
 * meet within a month ("from 3 March to 5 May 2026"), else by the codes of their first and last case.
 */
export function stretchNames(
  earlier: readonly Case[],
  later: readonly Case[],
  lists: readonly ListRecord[],
): { earlier: string; later: string } {
  const whens = new Map(lists.map(({ id, when }) => [id, when]));
  const span = (cases: readonly Case[], of: 'month' | 'date'): Span => {
    const found = cases.map(({ listId }) => {
      const when = listId === null ? undefined : whens.get(listId);
      if (when?.kind === 'date') return of === 'date' ? when.date : when.date.slice(0, 7);
      return when?.kind === 'month' && of === 'month' ? when.month : null;
    });
    const known = found.filter((each) => each !== null).sort();
    const [first, last] = [known[0], known.at(-1)];
    return known.length === cases.length && first && last ? { first, last } : null;
  };
  for (const [of, words, before] of [
    ['month', monthWords, 'in'],
    ['date', dayWords, 'from'],
  ] as const) {
    const [a, b] = [span(earlier, of), span(later, of)];
    if (a && b && (a.last < b.first || b.last < a.first))
      return { earlier: spanWords(a, words, before), later: spanWords(b, words, before) };
  }
  return { earlier: codes(earlier), later: codes(later) };
}

function spanWords({ first, last }: NonNullable<Span>, words: (iso: string) => string, before: 'in' | 'from'): string {
  if (first === last) return `${before === 'in' ? 'in' : 'on'} ${words(first)}`;
  const from = first.slice(0, 4) === last.slice(0, 4) ? words(first).replace(/ \d{4}$/, '') : words(first);
  return `${before} ${from} to ${words(last)}`;
}

function codes(cases: readonly Case[]): string {
  const [first, last] = [cases[0], cases.at(-1)];
  if (!first || !last) return 'in no case';
  return first === last ? `in case ${first.code}` : `in cases ${first.code} to ${last.code}`;
}
