import type { DotAxis } from './dot-axes';
import { cannotDraw, NARROW, px, type CannotDraw, type Drawing, type Point, type Width } from './drawn';
import { isRatio, ratioAxis, type RatioAxis } from './ratio-axis';
import { shapePath } from './shapes';
import { wrapText } from './text-fit';

/** One ratio with its interval, and the words on both sides of it. */
export type DotRow = {
  id: string;
  label: string;
  /** Counts and the like, small under the label. */
  under: string;
  ratio: number;
  low: number;
  high: number;
  /** Printed right of the line. */
  words: string;
  /** The row the reading rests on. */
  bold: boolean;
};

type Line = { x: number; y: number; text: string };

export type DrawnDotRow = {
  id: string;
  bold: boolean;
  label: readonly Line[];
  under: readonly Line[];
  words: readonly Line[];
  middle: number;
  dot: string;
  /** Drawn as an arrow: the value lies beyond the axis. */
  beyond: boolean;
  line: { from: number; to: number };
  /** Arrow heads where the interval runs out of the axis. */
  ends: string;
};

export type DotDrawing = Drawing & {
  size: number;
  small: number;
  ticks: RatioAxis['ticks'];
  head: number;
  rows: readonly DrawnDotRow[];
  lines: readonly [number, number];
};

const COLUMNS = {
  narrow: { size: 14, small: 12, label: [0, 324], strip: [16, 194], words: [204, 328], stacked: true },
  wide: { size: 14, small: 13, label: [0, 228], strip: [246, 462], words: [482, 760], stacked: false },
} as const;

/**
 * Ratios with their intervals, one under another on one log axis.
 * @param rows in the order given; a row whose ratio or interval is not a number > 0 is left out
 */
export function dotRows(rows: readonly DotRow[], axis: DotAxis, width: Width): DotDrawing | CannotDraw {
  const drawable = rows.filter(({ ratio, low, high }) => isRatio(ratio) && isRatio(low) && isRatio(high));
  if (drawable.length === 0) return cannotDraw('There is nothing to draw here yet.');
  const columns = width === NARROW ? COLUMNS.narrow : COLUMNS.wide;
  const scale = ratioAxis(axis.domain, columns.strip, axis.ticks);
  const head = 24;
  const drawn: DrawnDotRow[] = [];
  const points: Point[][] = [];
  let top = head;
  for (const row of drawable) {
    const { size, small, label, words, stacked } = columns;
    const lines = (text: string, [from, to]: readonly [number, number], type: number, y: number, bold = false) =>
      wrapText(text, to - from, type, bold).map((each, at) => ({ x: from, y: y + at * (type + 3), text: each }));
    const said = wrapText(row.words, words[1] - words[0], size, row.bold);
    const [text, saidHigh] = [textHeight(row, columns), said.length * (size + 3)];
    const middle = px(
      stacked
        ? top + text + 8 + Math.max(12, saidHigh / 2 + 4)
        : top + Math.max(20, (Math.max(text, saidHigh) + 12) / 2),
    );
    const first = stacked ? top + 18 : middle - text / 2 + 13;
    const labels = lines(row.label, label, size, px(first), row.bold);
    const unders = row.under ? lines(row.under, label, small, px(first + labels.length * (size + 3))) : [];
    const saidTop = middle + 5 - (saidHigh - size - 3) / 2;
    const height = stacked ? middle - top + Math.max(14, saidHigh / 2 + 6) : Math.max(40, text + 12, saidHigh + 12);

    const [at, low, high] = [scale.at(row.ratio), scale.at(row.low), scale.at(row.high)];
    drawn.push({
      id: row.id,
      bold: row.bold,
      label: labels,
      under: unders,
      words: said.map((each, line) => ({ x: words[0], y: px(saidTop + line * (size + 3)), text: each })),
      middle,
      dot: shapePath(at.out === null ? 'circle' : at.out === 'low' ? 'left' : 'right', at.at, middle, row.bold ? 5 : 4),
      beyond: at.out !== null,
      line: { from: Math.min(low.at, high.at), to: Math.max(low.at, high.at) },
      ends:
        (low.out === 'low' ? shapePath('left', low.at, middle, 3.5) : '') +
        (high.out === 'high' ? shapePath('right', high.at, middle, 3.5) : ''),
    });
    points.push([{ x: at.at, y: middle, say: `${row.label}: ${row.words}${row.under ? ` (${row.under})` : ''}` }]);
    top += height;
  }
  return {
    kind: 'drawing',
    width,
    height: px(top + 6),
    points,
    size: columns.size,
    small: columns.small,
    ticks: scale.ticks,
    head,
    rows: drawn,
    lines: [head - 2, top],
  };
}

/** Height of the words left of a row's line, px. */
function textHeight(row: DotRow, { size, small, label: [from, to] }: (typeof COLUMNS)[keyof typeof COLUMNS]): number {
  const label = wrapText(row.label, to - from, size, row.bold).length * (size + 3);
  return label + (row.under ? wrapText(row.under, to - from, small).length * (small + 3) : 0);
}
