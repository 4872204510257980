import readWorkbook from 'read-excel-file/web-worker';
import { sheetText } from './sheet-text.js';

/** Gets the file, answers `{ sheets }` with each sheet as comma-separated text, or `{ problem }`. */
self.onmessage = async ({ data: file }) => {
  try {
    const sheets = await readWorkbook(file);
    self.postMessage({
      sheets: sheets
        .map(({ sheet, data }) => ({ name: sheet, rows: data.length, text: sheetText(data) }))
        .filter(({ rows }) => rows > 0),
    });
  } catch {
    self.postMessage({
      problem:
        'This is no workbook that can be read here. Save the sheet as CSV and choose that file, or paste its cells.',
    });
  }
};
