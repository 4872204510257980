import { scaleLog } from 'd3';
import { cannotDraw, NARROW, px, type CannotDraw, type Drawing, type Point, type Width } from './drawn';
import { jitter } from './jitter';
import { isRatio as isTime } from './ratio-axis';
import { shapePath } from './shapes';
import { textWidth, wrapText } from './text-fit';

/** Cases that have something in common, on one line. */
export type StripRow = {
  id: string;
  label: string;
  /** How many, small under the label. */
  under: string;
  /** Seconds, > 0. `mark`: printed beside the dot. */
  dots: readonly { code: string; seconds: number; said: string; mark?: string }[];
  /** Seconds, with its words; `null` where there are too few for one. */
  median: { seconds: number; text: string } | null;
};

export type StripInput = {
  rows: readonly StripRow[];
  /** Seconds with their words; those that lie too near each other are left out. */
  ticks: readonly (readonly [seconds: number, label: string])[];
  seed: number;
};

type Words = { x: number; y: number; text: string };

export type DrawnStrip = {
  id: string;
  label: readonly Words[];
  under: Words;
  dots: string;
  marked: string;
  marks: readonly Words[];
  median: { x: number; from: number; to: number; words: Words } | null;
  middle: number;
};

export type StripDrawing = Drawing & {
  size: number;
  small: number;
  head: number;
  ticks: readonly { at: number; label: string }[];
  lines: readonly [number, number];
  medianX: number;
  rows: readonly DrawnStrip[];
};

const LAYOUT = {
  narrow: { label: [0, 262], strip: [8, 262], median: 328, pitch: 66, middle: 43, stacked: true },
  wide: { label: [0, 176], strip: [200, 690], median: 760, pitch: 46, middle: 25, stacked: false },
} as const;
const [SIZE, SMALL, HEAD, JITTER, DOT] = [14, 13, 30, 8, 2.7] as const;

/** Times of cases in rows on one log axis, seconds; further right is longer. Never throws. */
export function stripRows(input: StripInput, width: Width): StripDrawing | CannotDraw {
  const rows = input.rows.map((row) => ({ ...row, dots: row.dots.filter(({ seconds }) => isTime(seconds)) }));
  const times = rows.flatMap(({ dots }) => dots.map(({ seconds }) => seconds));
  if (times.length === 0) return cannotDraw('No case of this step can be drawn yet.');
  const layout = width === NARROW ? LAYOUT.narrow : LAYOUT.wide;
  const [low, high] = [Math.min(...times) / 1.08, Math.max(...times) * 1.08];
  const at = scaleLog().domain([low, high]).range(layout.strip);
  const points: Point[][] = [];
  const drawn = rows.map((row, index): DrawnStrip => {
    const top = HEAD + index * layout.pitch;
    const middle = top + layout.middle;
    const shift = jitter(input.seed, index, row.dots.length);
    const placed = row.dots.map((dot, place) => ({
      ...dot,
      x: px(at(dot.seconds)),
      y: px(middle + JITTER * (shift[place] ?? 0)),
    }));
    points.push(
      [...placed]
        .sort((a, b) => a.x - b.x)
        .map(({ x, y, code, said }) => ({ x, y, say: `${row.label}, case ${code}: ${said}` })),
    );
    const label = layout.stacked
      ? [row.label]
      : wrapText(row.label, layout.label[1] - layout.label[0], SIZE).slice(0, 2);
    const first = layout.stacked ? top + 16 : middle - (label.length * 17 + 15) / 2 + 12;
    return {
      id: row.id,
      middle,
      label: label.map((text, line) => ({ x: 0, y: px(first + line * 17), text })),
      under: layout.stacked
        ? { x: px(textWidth(row.label, SIZE) + 8), y: top + 16, text: row.under }
        : { x: 0, y: px(first + label.length * 17 - 1), text: row.under },
      dots: placed.flatMap(({ x, y, mark }) => (mark ? [] : [shapePath('circle', x, y, DOT)])).join(''),
      marked: placed.flatMap(({ x, y, mark }) => (mark ? [shapePath('circle', x, y, DOT + 1.3)] : [])).join(''),
      marks: placeMarks(
        placed.flatMap(({ x, mark }) => (mark ? [{ x, text: mark }] : [])),
        middle,
        layout.strip,
      ),
      median: row.median && {
        x: px(at(row.median.seconds)),
        from: middle - JITTER - 5,
        to: middle + JITTER + 5,
        words: { x: layout.median, y: middle + 5, text: row.median.text },
      },
    };
  });
  const bottom = HEAD + rows.length * layout.pitch;
  return {
    kind: 'drawing',
    width,
    height: bottom + 4,
    points,
    size: SIZE,
    small: SMALL,
    head: HEAD,
    ticks: apart(
      input.ticks
        .filter(([seconds]) => seconds >= low && seconds <= high)
        .map(([seconds, label]) => ({ at: px(at(seconds)), label })),
    ),
    lines: [HEAD - 4, bottom],
    medianX: layout.median,
    rows: drawn,
  };
}

/** Above all dots of the row, so that no word covers one; the second of two that would touch goes below them. */
function placeMarks(
  marks: readonly { x: number; text: string }[],
  middle: number,
  [left, right]: readonly [number, number],
): Words[] {
  let free = -Infinity;
  return [...marks]
    .sort((a, b) => a.x - b.x)
    .map(({ x, text }) => {
      const half = textWidth(text, SMALL, true) / 2;
      const centre = Math.min(Math.max(x, left + half), right - half);
      const above = centre - half > free + 4;
      if (above) free = centre + half;
      return { x: px(centre), y: above ? middle - JITTER - DOT - 5 : middle + JITTER + DOT + 12, text };
    });
}

function apart(ticks: readonly { at: number; label: string }[]): { at: number; label: string }[] {
  const kept: { at: number; label: string }[] = [];
  for (const tick of ticks) if (tick.at - (kept.at(-1)?.at ?? -Infinity) >= 48) kept.push(tick);
  return kept;
}
