import type { Problem } from '../lib/model';

/** A problem with the file it is in, where that is not the file of its line. */
export type FileProblem = Problem & { file?: string };

/** What is wrong with a whole file or with the call. */
export const whole = (column: string | null, value: string | null, why: string, file?: string): FileProblem => ({
  row: null,
  column,
  value,
  why,
  weight: 'refused',
  ...(file === undefined ? {} : { file }),
});
