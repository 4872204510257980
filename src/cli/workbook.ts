import { spawn } from 'node:child_process';
import { resolve } from 'node:path';
import { MILLISECONDS_MOST, WORKBOOK_MOST } from '../lib/workbook/workbook-limits.js';

export type SheetText = { name: string; rows: number; text: string };
type Read = { sheets: SheetText[] } | { problem: string };

/** `megabytes`: of the heap, about five times what the largest workbook that was tried took. */
const LIMITS = { milliseconds: MILLISECONDS_MOST, megabytes: 1024 };

const INSTEAD = 'Save the sheet with the times as CSV and name that file.';

/** A workbook is a zip file (ECMA-376, part 2), whatever it is called. */
export const isWorkbook = (bytes: Uint8Array): boolean =>
  bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 0x03 && bytes[3] === 0x04;

/** The sheets of a workbook, read in a process of their own that is killed when it takes too long or too much memory. */
export async function sheetsOf(bytes: Uint8Array, limits = LIMITS): Promise<Read> {
  if (bytes.length > WORKBOOK_MOST) return { problem: `This workbook is larger than 10 MB. ${INSTEAD}` };
  // Node runs the file itself, beside the bundle this may be part of; tool.js stands in the project folder.
  const child = spawn(
    process.execPath,
    [`--max-old-space-size=${limits.megabytes}`, resolve('src/cli/workbook-child.js')],
    { stdio: ['pipe', 'pipe', 'ignore'], timeout: limits.milliseconds, killSignal: 'SIGKILL' },
  );
  const chunks: Buffer[] = [];
  child.stdout.on('data', (chunk: Buffer) => chunks.push(chunk));
  // A child that is killed no longer takes what is written to it; what it was killed for is said below.
  child.stdin.on('error', () => undefined);
  child.stdin.end(bytes);
  const ended = await new Promise<{ code: number | null; signal: NodeJS.Signals | null }>((done) => {
    child.on('error', () => done({ code: 1, signal: null }));
    child.on('close', (code, signal) => done({ code, signal }));
  });
  if (ended.code === 0) return JSON.parse(Buffer.concat(chunks).toString('utf8')) as Read;
  const why =
    ended.signal === 'SIGKILL'
      ? `took more than ${limits.milliseconds / 1000} seconds`
      : `could not be read within ${limits.megabytes} MB of memory`;
  return { problem: `This workbook ${why}, so reading it was stopped. ${INSTEAD}` };
}
