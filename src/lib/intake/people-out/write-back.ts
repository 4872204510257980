import { parted, type Steps } from '../../turns';
import type { Sheet } from '../table/cells';
import { harmless } from '../table/harmless';
import { weights } from '../weights';

/** The sheet as text again: each row on the line it had, under the delimiter it had. */
export function* writtenBack(sheet: Sheet, changed: ReadonlyMap<number, readonly string[]>): Steps<string> {
  const { delimiter, rows, brokenQuoteRow } = sheet;
  // With a mark that is never closed all marks are plain signs, and must stay so.
  const cellText = (cell: string) =>
    brokenQuoteRow === null && /["\r\n]/.test(cell + (cell.includes(delimiter) ? '"' : ''))
      ? `"${cell.replaceAll('"', '""')}"`
      : cell;
  const lines: string[] = [`sep=${delimiter}`];
  for (const part of parted(rows)) {
    yield part.length * weights.row;
    for (const { row, cells } of part) {
      while (lines.length < row) lines.push('');
      lines.push((changed.get(row) ?? cells).map((cell) => cellText(harmless(cell))).join(delimiter));
    }
  }
  return lines.join('\n');
}
