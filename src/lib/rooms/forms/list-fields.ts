import {
  dateIsUnclear,
  dateOrderOf,
  liesAhead,
  namesSeveralDays,
  readDate,
  severalDays,
  type DateOrder,
} from '../../intake';
import { isoDate, type ListRecord, type When } from '../../model';
import { textOf, type FieldError, type Fields } from './fields';

export type ListChoice =
  { kind: 'none' } | { kind: 'known'; id: string } | { kind: 'new'; label: string | null; when: When };

/**
 * When a list took place, as people write it: a day, a month or a number. Empty is unknown, never today. `null`: none of
 * these, or "3/4/2026" while nobody has said which of the two is the day.
 */
export function whenFromText(text: string, order: DateOrder | null = null): When | null {
  if (text === '') return { kind: 'unknown' };
  if (/^\d{1,5}$/.test(text)) return { kind: 'number', number: Number(text) };
  if (order === null && dateIsUnclear(text)) return null;
  // A date that can be read one way only is read that way.
  const read = readDate(text, dateOrderOf(text) ?? order ?? 'dmy');
  if (read.kind === 'date') return { kind: 'date', date: read.date };
  return read.kind === 'month' ? { kind: 'month', month: read.month } : null;
}

/** The field that says which number of a date is the day; it is asked once and kept. */
export const ORDER_FIELD = 'dateOrder';

const orderOf = (fields: Fields): DateOrder | null => {
  const text = textOf(fields, ORDER_FIELD);
  return text === 'dmy' || text === 'mdy' ? text : null;
};

/**
 * The text of a field and, under its name with `Day`, the day picked in the browser's own field.
 * @param shown the text the page had put there: a day that is picked takes its place
 */
export function whenFromFields(
  fields: Fields,
  name: string,
  problem = WHEN_PROBLEM,
  shown = '',
): { when: When | null; errors: FieldError[] } {
  const [text, picked] = [textOf(fields, name), textOf(fields, `${name}Day`)];
  const order = orderOf(fields);
  const when = whenFromText(text, order);
  const wrong = (field: string, message: string) => ({ when: null, errors: [{ field, message }] });
  if (picked !== '' && isoDate.safeParse(picked).success) {
    if (text !== '' && text !== shown && !(when?.kind === 'date' && when.date === picked))
      return wrong(name, `You wrote "${text}" and picked ${picked}. Leave one of the two.`);
    return { when: { kind: 'date', date: picked }, errors: [] };
  }
  if (when) return { when, errors: [] };
  return order === null && dateIsUnclear(text) && readDate(text, 'dmy').kind === 'date'
    ? wrong(ORDER_FIELD, `"${text}" can be two days. Say which of its numbers is the day; you are asked only once.`)
    : wrong(name, namesSeveralDays(text) ? severalDays(text) : problem);
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

/** A name that says several days is one of several lists. */
export const labelErrors = (label: string, field: string): FieldError[] =>
  namesSeveralDays(label) ? [{ field, message: severalDays(label) }] : [];

export const WHEN_PROBLEM =
  'When: a day as you write it (12.3.2026, 12 March 2026), a month (March 2026), or the number of the list. Leave it empty if you do not know.';

/**
 * The list a typed case belongs to: `list` is '', `new` or an id; `newListWhen` and `newListLabel` beside it. What is
 * filled in there is a new list, whatever `list` says; beside another list of the record it is asked which is meant.
 * @param current the list the page had chosen
 */
export function listFromForm(
  fields: Fields,
  lists: readonly ListRecord[],
  current: string | null = null,
): { list: ListChoice; errors: FieldError[] } {
  const answer = textOf(fields, 'list');
  const label = textOf(fields, 'newListLabel');
  const filled = label !== '' || textOf(fields, 'newListWhen') !== '' || textOf(fields, 'newListWhenDay') !== '';
  const none = (message: string) => ({ list: { kind: 'none' } as const, errors: [{ field: 'list', message }] });
  if (answer !== '' && answer !== 'new' && !(filled && answer === current)) {
    if (!lists.some(({ id }) => id === answer)) return none('List: that list is no longer in the record.');
    if (filled)
      return none(
        'List: you chose one and filled in a new one. Choose "a new list", or empty the fields of the new one.',
      );
    return { list: { kind: 'known', id: answer }, errors: [] };
  }
  if (answer === '' && !filled) return { list: { kind: 'none' }, errors: [] };
  const { when, errors } = whenFromFields(fields, 'newListWhen');
  errors.push(...labelErrors(label, 'newListLabel'));
  return { list: { kind: 'new', label: label === '' ? null : label, when: when ?? { kind: 'unknown' } }, errors };
}
