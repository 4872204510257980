import { plainWords } from '../labels/plain-words';

/** `dmy`: 3/4/2025 is 3 April; `mdy`: it is 4 March. */
export type DateOrder = 'dmy' | 'mdy';

export type DateRead =
  { kind: 'date'; date: string } | { kind: 'month'; month: string } | { kind: 'problem'; problem: string };

/** How the names of the months begin, in English, German, French, Spanish, Italian and Portuguese, without accents. */
const MONTHS = [
  ['jan', 'ene', 'gen'],
  ['feb', 'fev'],
  ['mar'],
  ['apr', 'abr', 'avr'],
  ['may', 'mai', 'mag'],
  ['jun', 'juin', 'giu'],
  ['jul', 'juil', 'lug'],
  ['aug', 'ago', 'aou'],
  ['sep', 'set'],
  ['oct', 'okt', 'ott', 'out'],
  ['nov'],
  ['dec', 'dez', 'dic'],
];
/** "3 de marzo de 2026", "3rd of March". */
const BETWEEN = new Set(['de', 'do', 'of', 'the', 'le', 'el', 'del']);
const monthOf = (word: string): number =>
  /^\p{L}+$/u.test(word) ? MONTHS.findIndex((names) => names.some((name) => word.startsWith(name))) + 1 : 0;
const NUMERIC = /^(\d{1,2})[./\- ](\d{1,2})[./\- ](\d{4}|\d{2})$/;
/** A sheet's own day count from 30 December 1899, for 2000 to 2050. */
const SERIAL = { first: 36526, last: 54789, epoch: Date.UTC(1899, 11, 30), day: 86_400_000 };

/** Both numbers could be the day. */
export function dateIsUnclear(text: string): boolean {
  const parts = NUMERIC.exec(day(text));
  return parts !== null && Number(parts[1]) <= 12 && Number(parts[2]) <= 12 && parts[1] !== parts[2];
}

/** `mdy` or `dmy` where this date settles it, else `null`. */
export function dateOrderOf(text: string): DateOrder | null {
  const parts = NUMERIC.exec(day(text));
  if (!parts) return null;
  if (Number(parts[1]) > 12) return 'dmy';
  return Number(parts[2]) > 12 ? 'mdy' : null;
}

// The time of day is not kept.
const day = (text: string): string => text.trim().replace(/[T ]\d{1,2}:\d{2}(:\d{2}(\.\d+)?)?( ?[ap]m|Z)?$/i, '');

/** "2 to 23 Dec", "2.–23.12.2026", "3 and 4 March": several days, where a list is one. */
const SEVERAL =
  /\b\d{1,2}(?:st|nd|rd|th|\.)?\s*(?:[–—+&]|\b(?:to|until|till|through|and|bis|und|et|y|e|al|au|ate|a)\b|[-/](?=\s*\d{1,2}(?:st|nd|rd|th|\.)?\s*\p{L}{3}))\s*\d{1,2}(?!\d)/iu;

/** Does this text name more than one day? */
export const namesSeveralDays = (text: string): boolean =>
  SEVERAL.test(text) &&
  plainWords(text)
    .split(' ')
    .some((word) => monthOf(word) > 0 || /^(19|20)\d\d$/.test(word));

/** Reads a day or a month; ISO 8601 out. */
export function readDate(written: string, order: DateOrder): DateRead {
  if (namesSeveralDays(written)) return { kind: 'problem', problem: severalDays(written) };
  const text = day(written);
  const iso = /^(\d{4})[-./](\d{1,2})(?:[-./](\d{1,2}))?$/.exec(text);
  if (iso) return made(Number(iso[1]), Number(iso[2]), iso[3] === undefined ? null : Number(iso[3]), written);
  const compact = /^(20\d\d)(\d\d)(\d\d)$/.exec(text);
  if (compact) return made(Number(compact[1]), Number(compact[2]), Number(compact[3]), written);
  const numeric = NUMERIC.exec(text);
  if (numeric) {
    const [first, second] = [Number(numeric[1]), Number(numeric[2])];
    return order === 'dmy'
      ? made(year(numeric[3]), second, first, written)
      : made(year(numeric[3]), first, second, written);
  }
  const serial = Number(text);
  if (/^\d{5}$/.test(text) && serial >= SERIAL.first && serial <= SERIAL.last)
    return { kind: 'date', date: new Date(SERIAL.epoch + serial * SERIAL.day).toISOString().slice(0, 10) };
  return named(text, written);
}

/** "3 March 2025", "Mar 3, 2025", "March 2025", "03-Mar-25". */
function named(text: string, written: string): DateRead {
  const words = plainWords(text)
    .split(' ')
    .filter((word) => !BETWEEN.has(word))
    .map((word) => word.replace(/^(\d+)(st|nd|rd|th)$/, '$1'));
  const at = words.findIndex((word) => monthOf(word) > 0);
  const month = monthOf(words[at] ?? '');
  const numbers = words.filter((_, index) => index !== at);
  if (at >= 0 && numbers.length <= 2 && numbers.every((word) => /^\d{1,4}$/.test(word))) {
    if (numbers.length === 1) return made(year(numbers[0]), month, null, written);
    if (numbers.length === 2) return made(year(numbers[1]), month, Number(numbers[0]), written);
  }
  return wrong(written);
}

const year = (text: string | undefined): number => (text?.length === 2 ? 2000 + Number(text) : Number(text));

/** What is wrong with such a text, and what to do. */
export const severalDays = (written: string): string =>
  `"${written}" is more than one day, and a list is one. Write the day of this list, its month, or leave it empty.`;

const wrong = (written: string): DateRead => ({
  kind: 'problem',
  problem: `"${written}" is not a date. Write it like 2025-03-28, or leave it empty.`,
});

function made(years: number, months: number, days: number | null, written: string): DateRead {
  const two = (value: number) => String(value).padStart(2, '0');
  if (years < 1990 || years > 2100 || months < 1 || months > 12) return wrong(written);
  if (days === null) return { kind: 'month', month: `${years}-${two(months)}` };
  const real = new Date(Date.UTC(years, months - 1, days));
  if (real.getUTCMonth() !== months - 1 || real.getUTCDate() !== days) return wrong(written);
  return { kind: 'date', date: `${years}-${two(months)}-${two(days)}` };
}
