import { liesAhead } from '../../intake';
import { isoDate, isoMonth, type ListRecord, type When } from '../../model';
import { textOf, type FieldError, type Fields } from './fields';

export type ListChoice =
  { kind: 'none' } | { kind: 'known'; id: string } | { kind: 'new'; label: string | null; when: When };

/** When a list took place, as typed: a date, a month or a number. Empty is unknown, never today. */
export function whenFromText(text: string): When | null {
  if (text === '') return { kind: 'unknown' };
  if (isoDate.safeParse(text).success) return { kind: 'date', date: text };
  if (isoMonth.safeParse(text).success) return { kind: 'month', month: text };
  if (/^\d{1,5}$/.test(text)) return { kind: 'number', number: Number(text) };
  return null;
}

/** A `When` as the field that reads it back. */
export function whenText(when: When): string {
  switch (when.kind) {
    case 'date':
      return when.date;
    case 'month':
      return when.month;
    case 'number':
      return String(when.number);
    default:
      return '';
  }
}

/**
 * Shown where the day of a list is in the future although something from it is already here: kept as written, since the
 * clock may be what is wrong.
 *
 * @param today ISO date
 * @param yet what is there already ("it has times")
 */
export function aheadWords(when: When, today: string, yet: string): string | null {
  const day = when.kind === 'date' ? when.date : when.kind === 'month' ? when.month : null;
  if (day === null || !liesAhead(day, today)) return null;
  return `Its ${when.kind === 'date' ? 'day' : 'month'} is after today (${today}), and yet ${yet}: check the date, or the clock of this computer.`;
}

export const WHEN_PROBLEM =
  'When: a date as 2026-03-12, a month as 2026-03, or the number of the list. Leave it empty if you do not know.';

/** The list a typed case belongs to: `list` is '', `new` or an id; `newListWhen` and `newListLabel` beside `new`. */
export function listFromForm(fields: Fields, lists: readonly ListRecord[]): { list: ListChoice; errors: FieldError[] } {
  const answer = textOf(fields, 'list');
  if (answer === '') return { list: { kind: 'none' }, errors: [] };
  if (answer !== 'new')
    return lists.some(({ id }) => id === answer)
      ? { list: { kind: 'known', id: answer }, errors: [] }
      : { list: { kind: 'none' }, errors: [{ field: 'list', message: 'List: that list is no longer in the record.' }] };
  const when = whenFromText(textOf(fields, 'newListWhen'));
  const label = textOf(fields, 'newListLabel');
  return {
    list: { kind: 'new', label: label === '' ? null : label, when: when ?? { kind: 'unknown' } },
    errors: when ? [] : [{ field: 'newListWhen', message: WHEN_PROBLEM }],
  };
}
