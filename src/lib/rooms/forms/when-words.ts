import type { ListRecord, When } from '../../model';

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

/** "2026-03", or any ISO day in it, as prose: "March 2026". */
export const monthWords = (iso: string): string =>
  `${MONTHS[Number(iso.slice(5, 7)) - 1] ?? ''} ${iso.slice(0, 4)}`.trim();

/** An ISO date as prose, day first: "12 March 2026". */
export const dayWords = (isoDay: string): string => `${Number(isoDay.slice(8, 10))} ${monthWords(isoDay)}`;

/** An instant as the day it fell on in its own zone. */
export const instantWords = (instant: string): string => dayWords(instant.slice(0, 10));

/** When a list took place, as far as it is known; '' where nothing is. */
export function whenWords(when: When): string {
  switch (when.kind) {
    case 'date':
      return dayWords(when.date);
    case 'month':
      return monthWords(when.month);
    case 'number':
      return `list ${when.number}`;
    default:
      return '';
  }
}

/** The name of a list on a screen: the surgeon's own, else when it took place. */
export function listTitle(list: Pick<ListRecord, 'label' | 'when'>): string {
  const when = whenWords(list.when);
  const label = list.label === null ? '' : /^\d/.test(list.label) ? `List ${list.label}` : list.label;
  if (label !== '' && when !== '' && list.when.kind !== 'number') return `${label}, ${when}`;
  const title = label || when || 'A list without a date';
  return title.charAt(0).toUpperCase() + title.slice(1);
}
