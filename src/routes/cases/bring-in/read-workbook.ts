import { MILLISECONDS_MOST } from '../../../lib/workbook/workbook-limits.js';

/** `times`: rows that look like times. */
export type Sheet = { name: string; rows: number; times: number; text: string };
export type WorkbookRead = { sheets: readonly Sheet[] } | { problem: string };
export type ReadingWorkbook = { done: Promise<WorkbookRead>; cancel: () => void };

const INSTEAD = 'Save the sheet as CSV and choose that file, or paste its cells.';

/** Reads a workbook in a worker of its own, which is ended when it takes too long or is stopped. */
export function readWorkbook(file: Blob): ReadingWorkbook {
  // Plain JavaScript: a worker written in TypeScript survives the build and fails when it runs.
  const worker = new Worker(new URL('./workbook-worker.js', import.meta.url), { type: 'module' });
  let finish: (read: WorkbookRead) => void = () => undefined;
  const done = new Promise<WorkbookRead>((resolve) => {
    finish = (read) => {
      clearTimeout(tooLong);
      worker.terminate();
      resolve(read);
    };
  });
  const tooLong = setTimeout(
    () => finish({ problem: `The workbook took more than 30 seconds and was abandoned. ${INSTEAD}` }),
    MILLISECONDS_MOST,
  );
  worker.onmessage = ({ data }: MessageEvent<WorkbookRead>) => finish(data);
  worker.onerror = () => finish({ problem: `This workbook could not be read. ${INSTEAD}` });
  worker.postMessage(file);
  return { done, cancel: () => finish({ problem: '' }) };
}
