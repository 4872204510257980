import { cellOf, type Column } from '../headings/column';
import type { Ledger } from '../ledger';
import { agreedCell } from './agreed-cell';
import type { Row } from './cells';
import { readDate, type DateOrder } from './dates';

/**
 * The day (or month) of a case's list, ISO 8601; `null` where none is given or none can be read. One that lies ahead is
 * taken as written and asked about: a slip of the year puts a case after all others.
 *
 * @param today ISO date; `null` where nobody knows it
 */
export function whenOf(
  rows: readonly Row[],
  column: Column | undefined,
  order: DateOrder,
  today: string | null,
  ledger: Ledger,
): string | null {
  if (!column) return null;
  const when = agreedCell<string>(
    rows,
    column,
    (text) => {
      const read = readDate(text, order);
      if (read.kind === 'problem') return { problem: read.problem };
      return { value: read.kind === 'date' ? read.date : read.month };
    },
    ledger,
  );
  const [row] = rows;
  if (row && when !== null && today !== null && liesAhead(when, today))
    ledger.query(
      row.row,
      column.heading,
      cellOf(row, column),
      `This day is in the future (today is ${today}). It is taken as written; correct it if it is a slip.`,
    );
  return when;
}

/**
 * Does this day or month (ISO 8601) lie ahead of today? A day is in hand: tomorrow here may be today elsewhere.
 * @param today ISO date
 */
export const liesAhead = (when: string, today: string): boolean => {
  const tomorrow = new Date(Date.parse(today) + 86_400_000).toISOString();
  return when > tomorrow.slice(0, when.length);
};
