import { strFromU8, unzipSync } from 'fflate';
import readWorkbook from 'read-excel-file/web-worker';
import { sheetText } from './sheet-text.js';
import { cellTooFar, TOO_LARGE, tooFar, UNPACKED_MOST } from './workbook-limits.js';

/**
 * What is above a limit, looked for before the reading: it makes every row and cell up to the last one, and would end
 * the tab with a cell at the far corner of a sheet.
 *
 * @param {ArrayBuffer} bytes
 */
function aboveLimits(bytes) {
  let unpacked = 0;
  const sheets = unzipSync(new Uint8Array(bytes), {
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

/** Gets the file, answers `{ sheets }` with each sheet as comma-separated text, or `{ problem }`. */
self.onmessage = async ({ data: file }) => {
  try {
    const problem = aboveLimits(await file.arrayBuffer());
    if (problem !== null) return self.postMessage({ problem });
    const sheets = await readWorkbook(file);
    self.postMessage({
      sheets: sheets
        .map(({ sheet, data }) => ({ name: sheet, rows: data.length, text: sheetText(data) }))
        .filter(({ rows }) => rows > 0),
    });
  } catch {
    self.postMessage({
      problem:
        'This is not a workbook that can be read here. Save the sheet as CSV and choose that file, or paste its cells.',
    });
  }
};
