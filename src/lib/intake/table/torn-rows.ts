import type { Row } from './cells';

/**
 * One quotation mark too many or too few makes a cell swallow the rows after it, up to the next mark. A note may well
 * run over several lines; a line in it with as many signs as a row of this sheet is a row. Kept as read, and asked about.
 *
 * @param columns headings of the sheet
 * @returns how many rows the cells of this one seem to have swallowed
 */
export function swallowedRows({ cells }: Row, delimiter: string, columns: number): number {
  const signs = Math.max(2, columns - 1);
  const likeRows = (cell: string) =>
    cell.includes('\n') ? cell.split(/\r?\n/).filter((line) => line.split(delimiter).length > signs).length : 0;
  return cells.reduce((sum, cell) => sum + likeRows(cell), 0);
}
