/** As far as a sheet is read: more rows or columns are no audit, and one stray cell makes every row before it. */
export const ROWS_MOST = 300_000;
export const COLUMNS_MOST = 500;
/** Bytes of the largest workbook tried; a small file can still unpack to a giant one, so time is limited too. */
export const WORKBOOK_MOST = 10 * 1024 * 1024;
export const MILLISECONDS_MOST = 30_000;

/** Bytes a workbook may unpack to: a small file can hold gigabytes. */
export const UNPACKED_MOST = 200_000_000;

/** A cell that holds something; rows and cells that only have a format, as some programs write to the last line, are passed over. */
const CELL = /<(?:\w+:)?c\s[^>]*?\br="([A-Z]+)(\d+)"[^>]*(?<!\/)>/g;

/** @param {string} letters A is 1, XFD 16,384 */
const columnOf = (letters) => [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);

/**
 * The first cell that stands beyond the limits, as a spreadsheet names it; `null` where none does.
 *
 * @param {string} xml of one sheet (ECMA-376, part 1, 18.3.1.4: `<c r="B2">`)
 */
export function cellTooFar(xml) {
  for (const [, letters = '', row = ''] of xml.matchAll(CELL))
    if (Number(row) > ROWS_MOST || columnOf(letters) > COLUMNS_MOST) return `${letters}${row}`;
  return null;
}

/** @param {string} cell */
export const tooFar = (cell) =>
  `On one of its sheets something stands at ${cell}; at most 300,000 rows and 500 columns are read. Delete what stands far from the table (Ctrl and End lead there), or save the sheet with the times as CSV.`;

export const TOO_LARGE =
  'This workbook unpacks to more than 200 MB, which is the most that is read. Save the sheet with the times as CSV and choose that file, or paste its cells.';
