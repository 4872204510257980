import { cellStrip, type CellDrawing, type CellRow } from './cells';
import { WIDE } from './drawn';
import { wrapText } from './text-fit';

type Line = { x: number; y: number; text: string };

export type CellSheet = {
  width: number;
  height: number;
  size: number;
  small: number;
  rows: readonly { id: string; label: readonly Line[]; strip: CellDrawing; at: number; words: readonly Line[] }[];
};

const [SIZE, SMALL] = [14, 12.5];

/** Rows of cells on one sheet with their names and counts, for a file: on a screen these words are HTML. */
export function cellSheet(rows: readonly CellRow[]): CellSheet {
  const drawn: CellSheet['rows'][number][] = [];
  let top = 4;
  for (const { id, label, cells, words } of rows) {
    const lines = (text: string, size: number) =>
      wrapText(text, WIDE, size).map((each) => {
        top += size + 4;
        return { x: 0, y: top - 4, text: each };
      });
    const name = lines(label, SIZE);
    const strip = cellStrip(cells);
    const at = top + 2;
    top = at + strip.height;
    drawn.push({ id, label: name, strip, at, words: lines(words, SMALL) });
    top += 12;
  }
  return { width: WIDE, height: top, size: SIZE, small: SMALL, rows: drawn };
}
