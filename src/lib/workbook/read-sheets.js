import { strFromU8, unzipSync } from 'fflate';
import { rowsOfTimes } from './looks-like-times.js';
import { cellText, sheetText } from './sheet-text.js';
import { cellTooFar, TOO_LARGE, tooFar, UNPACKED_MOST } from './workbook-limits.js';

export const NO_WORKBOOK =
  'This is not a workbook that can be read here. Save the sheet as CSV and choose that file, or paste its cells.';

/**
 * What is above a limit, looked for before the reading: it makes every row and cell up to the last one, and would end
 * the tab or the process with a cell at the far corner of a sheet.
 *
 * @param {Uint8Array} bytes
 */
function aboveLimits(bytes) {
  let unpacked = 0;
  const sheets = unzipSync(bytes, {
    filter: ({ name, originalSize }) => {
      unpacked += originalSize;
      return unpacked <= UNPACKED_MOST && /^xl\/worksheets\/[^/]+\.xml$/i.test(name);
    },
  });
  if (unpacked > UNPACKED_MOST) return TOO_LARGE;
  const far = Object.values(sheets).reduce(
    (/** @type {string | null} */ found, sheet) => found ?? cellTooFar(strFromU8(sheet)),
    null,
  );
  return far === null ? null : tooFar(far);
}

/**
 * Every sheet of a workbook that holds something, as comma-separated text. To be run where it can be ended: a worker of
 * the browser, a child process.
 *
 * @param {Uint8Array<ArrayBuffer>} bytes
 * @param {(file: Blob) => Promise<{ sheet: string, data: readonly (readonly unknown[])[] }[]>} read of read-excel-file,
 *   in the build for where this runs
 * @returns {Promise<{ sheets: { name: string, rows: number, times: number, text: string }[] } | { problem: string }>}
 */
export async function readSheets(bytes, read) {
  try {
    const problem = aboveLimits(bytes);
    if (problem !== null) return { problem };
    const sheets = await read(new Blob([bytes]));
    return {
      sheets: sheets
        .map(({ sheet, data }) => ({
          name: sheet,
          rows: data.length,
          times: rowsOfTimes(data.map((row) => row.map(cellText))),
          text: sheetText(data),
        }))
        .filter(({ rows }) => rows > 0),
    };
  } catch {
    return { problem: NO_WORKBOOK };
  }
}
