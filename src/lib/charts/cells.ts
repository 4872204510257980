import { px, type Point } from './drawn';

/** A case in a row of cells: filled, half, open, a dot, the letter E, a question mark, or a low stroke. */
export type CellKind = 'filled' | 'half' | 'open' | 'dot' | 'event' | 'not-answered' | 'blank';
export type Cell = { kind: CellKind; say: string };

export type CellRow = {
  id: string;
  label: string;
  cells: readonly Cell[];
  /** The count in words, printed after the cells. */
  words: string;
};

export type CellDrawing = {
  width: number;
  height: number;
  outlines: string;
  fills: string;
  /** A short stroke where a cell would be: nothing is known of this case. */
  blanks: string;
  letters: readonly { x: number; y: number; text: string }[];
  points: readonly (readonly Point[])[];
};

const PITCH = 16;
const SIDE = 11;
/** Twenty cells of 16 px fit a phone; forty stand in two lines, so that a letter in a cell keeps its 12 px. */
const PER_LINE = 20;

/** One row of cells, wrapped at twenty. An empty row has no width and draws nothing. */
export function cellStrip(cells: readonly Cell[]): CellDrawing {
  const lines = Math.ceil(cells.length / PER_LINE);
  const outlines: string[] = [];
  const fills: string[] = [];
  const blanks: string[] = [];
  const letters: { x: number; y: number; text: string }[] = [];
  const points: Point[][] = Array.from({ length: lines }, () => []);
  cells.forEach(({ kind, say }, index) => {
    const line = Math.floor(index / PER_LINE);
    const [x, y] = [(index % PER_LINE) * PITCH + 1.5, line * (PITCH + 2) + 2.5];
    const middle = { x: px(x + SIDE / 2), y: px(y + SIDE / 2) };
    points[line]?.push({ ...middle, say });
    if (kind === 'filled' || kind === 'half' || kind === 'open') outlines.push(`M${x},${y}h${SIDE}v${SIDE}h${-SIDE}Z`);
    if (kind === 'filled') fills.push(`M${x},${y}h${SIDE}v${SIDE}h${-SIDE}Z`);
    if (kind === 'half') fills.push(`M${x},${y + SIDE}v${-SIDE}L${x + SIDE},${y + SIDE}Z`);
    if (kind === 'dot') fills.push(`M${middle.x - 1.75},${middle.y}a1.75,1.75 0 1 0 3.5,0a1.75,1.75 0 1 0 -3.5,0Z`);
    if (kind === 'blank') blanks.push(`M${x + 3},${y + SIDE}h${SIDE - 6}`);
    if (kind === 'event') letters.push({ x: middle.x, y: y + SIDE - 1, text: 'E' });
    if (kind === 'not-answered') letters.push({ x: middle.x, y: y + SIDE - 1, text: '?' });
  });
  return {
    width: Math.min(cells.length, PER_LINE) * PITCH,
    height: lines * (PITCH + 2),
    outlines: outlines.join(''),
    fills: fills.join(''),
    blanks: blanks.join(''),
    letters,
    points,
  };
}
