import { cellOf, type Column } from '../headings/column';
import type { Row } from './cells';
import type { Ledger } from '../ledger';

/**
 * A value that belongs to the whole case and may stand in several of its rows: where rows differ it is not taken,
 * and that is named.
 *
 * @param read `null`: nothing is said here. A sentence in `problem` is named with its cell.
 */
export function agreedCell<T extends string | number | boolean>(
  rows: readonly Row[],
  column: Column,
  read: (text: string) => { value: T | null } | { problem: string },
  ledger: Ledger,
): T | null {
  let found: { value: T; row: number } | null = null;
  let differs = false;
  let last: string | null = null;
  for (const row of rows) {
    const text = cellOf(row, column);
    // The same cell again and again, as a case's facts usually stand: read once.
    if (text === '' || text === last) continue;
    last = text;
    const answer = read(text);
    if ('problem' in answer) ledger.refuseCell(row.row, column.heading, text, answer.problem);
    else if (answer.value !== null && found === null) found = { value: answer.value, row: row.row };
    else if (answer.value !== null && found !== null && answer.value !== found.value) {
      differs = true;
      ledger.refuseCell(
        row.row,
        column.heading,
        text,
        `Row ${found.row} of the same case says otherwise, so nothing is taken for "${column.heading}". Make them agree.`,
      );
    }
  }
  return differs ? null : (found?.value ?? null);
}

/** What stands in a column of the rows of a case, each text once, in order. */
export function differentCells(rows: readonly Row[], column: Column): string[] {
  const found: string[] = [];
  for (const row of rows) {
    const text = cellOf(row, column);
    if (text !== found.at(-1) && !found.includes(text)) found.push(text);
  }
  return found;
}
