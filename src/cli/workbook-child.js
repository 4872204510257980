import { buffer } from 'node:stream/consumers';
import readWorkbook from 'read-excel-file/universal';
import { readSheets } from '../lib/workbook/read-sheets.js';

/**
 * A process of its own, so that it can be killed: a workbook on standard input, its sheets as one JSON on standard
 * output. No reader of .xlsx that was tried is safe in a process with anything else to do: 9 kB can hang it.
 */
const bytes = await buffer(process.stdin);
process.stdout.write(JSON.stringify(await readSheets(new Uint8Array(bytes), readWorkbook)));
