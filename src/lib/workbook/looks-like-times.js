/** A length or a clock reading as people write it in a cell: 83, 83.5, 1:23, 0:01:23, 83 s. */
const TIME = /^\d{1,4}(?:[.,:]\d{1,2}){0,2}(?: ?(?:s|sec|min))?$/i;

/**
 * In how many rows of a sheet at least half of the filled cells after the first are times: a sheet of times has many such
 * rows, a page of notes none and a table of facts few.
 *
 * @param {readonly (readonly string[])[]} rows as text
 */
export function rowsOfTimes(rows) {
  return rows.filter((cells) => {
    const [code = '', ...rest] = cells;
    const filled = rest.filter((cell) => cell.trim() !== '');
    const times = filled.filter((cell) => TIME.test(cell.trim())).length;
    return code.trim() !== '' && times > 0 && times * 2 >= filled.length;
  }).length;
}

/**
 * The sheet to open on: the one with most rows of times, the first of them where several have as many.
 *
 * @param {readonly { times: number }[]} sheets
 */
export const sheetOfTimes = (sheets) =>
  sheets.reduce((best, { times }, at) => (times > (sheets[best]?.times ?? 0) ? at : best), 0);
