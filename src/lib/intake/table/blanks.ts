import { named, plainWords } from '../labels/plain-words';

/** Ways people leave a time out. What each means is asked once a file. */
export type Blank = 'zero' | 'dash' | 'n-a' | 'empty' | 'not-done' | 'not-timed';

const NOT_AVAILABLE = new Set(['n a', 'na', 'nil', 'none', 'null', 'nan', 'nd', 'not applicable']);
const NOT_DONE = new Set(['not done', 'not needed', 'not performed', 'omitted', 'skipped', 'no']);
const NOT_TIMED = new Set(
  named(`not timed, not recorded, not noted, not known, unknown, missing, not seen, missed, no data, nk, nr,
    u k`),
);

/** Is this cell a way of leaving a time out? `null` when something else stands there. */
export function blankOf(text: string): Blank | null {
  const cell = text.trim();
  if (cell === '') return 'empty';
  // Most cells are numbers; no way of leaving a time out begins with 1 to 9.
  if (/^[1-9]/.test(cell)) return null;
  if (/^[-−–—.?/]+$/.test(cell)) return 'dash';
  if (/^0+([.,:]0+)*( ?s)?$/.test(cell)) return 'zero';
  const words = plainWords(cell);
  if (NOT_AVAILABLE.has(words)) return 'n-a';
  if (NOT_DONE.has(words)) return 'not-done';
  return NOT_TIMED.has(words) ? 'not-timed' : null;
}
