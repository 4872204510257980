import type { Steps } from '../../turns';
import { chaptersAsSheet, isChapters } from '../stretches/chapters';
import { cellsOf, type NoSheet, type Sheet } from './cells';
import { textOf } from './decode';

/** Text (pasted cells, a file already read) or the bytes of a file in any usual encoding. */
export type Written = { text?: string; bytes?: Uint8Array };

/**
 * Bytes to rows: a file as a sheet.
 *
 * @param code for the case of a recording, since chapter marks hold none; `null` where a file cannot be chapter marks
 */
export function* sheetOf(file: Written, code: string | null): Steps<Sheet | NoSheet> {
  const text = yield* textOf(file);
  if ('problem' in text) return { problem: text.problem, row: null };
  return code !== null && isChapters(text.text) ? chaptersAsSheet(text.text, code) : yield* cellsOf(text.text);
}
