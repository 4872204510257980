import readWorkbook from 'read-excel-file/web-worker';
import { readSheets } from '../../../lib/workbook/read-sheets.js';

/** Gets the file, answers `{ sheets }` with each sheet as comma-separated text, or `{ problem }`. */
self.onmessage = async ({ data: file }) => {
  self.postMessage(await readSheets(new Uint8Array(await file.arrayBuffer()), readWorkbook));
};
