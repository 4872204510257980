import type { Row } from './column-set';
import type { Ledger } from '../ledger';

/**
 * One quotation mark too many or too few makes a cell swallow the rows after it, up to the next mark. A note may well
 * run over several lines; a line in it with as many signs as a row of this sheet is a row. Kept as read, and asked about.
 *
 * @param columns headings of the sheet
 */
export function askAboutTornRows(rows: readonly Row[], delimiter: string, columns: number, ledger: Ledger): void {
  const signs = Math.max(2, columns - 1);
  const likeRows = (cell: string) =>
    cell.includes('\n') ? cell.split(/\r?\n/).filter((line) => line.split(delimiter).length > signs).length : 0;
  for (const { row, cells } of rows) {
    const swallowed = cells.reduce((sum, cell) => sum + likeRows(cell), 0);
    if (swallowed > 0)
      ledger.query(
        row,
        null,
        null,
        `A cell of this row holds ${swallowed === 1 ? 'a line that looks' : `${swallowed} lines that look`} like ${swallowed === 1 ? 'a row' : 'rows'} of the sheet: a quotation mark is probably missing, or one too many. Correct it and bring the file in again.`,
      );
  }
}
