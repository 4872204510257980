import type { ChooseInput, ChooseRow } from './choose-input';
import type { ChooseLayout } from './choose-layout';
import { drawBar, drawWaiting, type Seconds } from './choose-bar';
import type { Point } from './drawn';
import { jitter } from './jitter';
import { isRatio, type RatioAxis } from './ratio-axis';
import { shapePath } from './shapes';
import { fitText, wrapText } from './text-fit';

export type Words = { x: number; y: number; text: string };

export type DrawnChooseRow = {
  id: string;
  href: string;
  top: number;
  height: number;
  bold: boolean;
  accent: boolean;
  full: string;
  label: Words;
  usual: Words | null;
  /** "suggested", how sure: small, under the name. */
  under: readonly Words[];
  /** Middle of the strip. */
  middle: number;
  dots: string;
  /** Cases beyond the axis, at its edge. */
  beyond: string;
  range: { from: number; to: number; y: number } | null;
  reference: { path: string; edge: (Words & { anchor: 'start' | 'end' }) | null } | null;
  bar: { x: number; y: number; width: number; height: number; low: number; high: number; words: Words } | null;
  instead: readonly Words[];
  waiting: { outline: { x: number; y: number; width: number; height: number }; hatch: string; words: Words } | null;
};

const JITTER = 7;
const DOT = 2.4;

/** One row of the drawing, its top at `top`, and the points on it. */
export function drawRow(
  row: ChooseRow,
  index: number,
  top: number,
  { input, layout, axis, seconds }: { input: ChooseInput; layout: ChooseLayout; axis: RatioAxis; seconds: Seconds },
): { row: DrawnChooseRow; points: Point[] } {
  const bold = row.suggested;
  const firstLine = top + 18;
  const under = wrapText(
    [row.suggested ? 'suggested' : '', row.certainty].filter(Boolean).join(' · '),
    layout.usualX - layout.label.x + 8,
    layout.small,
  ).map((text, line) => ({ x: layout.label.x, y: firstLine + 16 + line * 15, text }));
  const waiting = row.waiting && row.waiting.seconds > 0 && Number.isFinite(row.waiting.seconds) ? row.waiting : null;

  const middle = top + (layout.stacked ? 36 + under.length * 15 : 20);
  const baseline = layout.stacked || under.length > 0 ? firstLine : top + 25;

  const dots: string[] = [];
  const beyond: string[] = [];
  const points: Point[] = [];
  const shift = jitter(input.seed, index, row.dots.length);
  row.dots.forEach((dot, at) => {
    if (!isRatio(dot.ratio)) return;
    const x = axis.at(dot.ratio);
    const y = middle + JITTER * (shift[at] ?? 0);
    if (x.out === null) dots.push(shapePath('circle', x.at, y, DOT));
    else beyond.push(shapePath(x.out === 'low' ? 'left' : 'right', x.at, y, 3));
    points.push({
      x: x.at,
      y,
      say: `${row.label}, case ${dot.code}: ${dot.said}, ${times(dot.ratio)} your usual when adjusted for the eye`,
    });
  });
  points.sort((a, b) => a.x - b.x);

  const reference = row.reference && isRatio(row.reference.ratio) ? drawReference(row.reference, middle, axis) : null;
  if (reference) points.push({ x: reference.x, y: middle, say: `${row.label}, ${row.reference?.said ?? ''}` });

  const range =
    row.range && isRatio(row.range.low) && isRatio(row.range.high)
      ? { from: axis.at(row.range.low).at, to: axis.at(row.range.high).at, y: middle + JITTER + DOT + 3 }
      : null;
  if (range && input.column === 'spread')
    points.push({ x: range.to, y: range.y, say: `${row.label}, ${row.range?.said ?? ''}` });

  const bar = row.bar && !row.instead ? drawBar(row.bar, middle, layout, seconds) : null;
  if (bar && row.bar) points.push({ x: bar.x + bar.width, y: middle, say: `${row.label}, ${row.bar.told}` });
  const instead = (row.instead ? wrapText(row.instead, layout.bar[1] - layout.bar[0], layout.small) : []).map(
    (text, line, all) => ({ x: layout.bar[0], y: middle + 4 - (all.length - 1) * 7 + line * 14, text }),
  );

  const below = Math.max(16, reference?.edge ? 28 : 0, waiting ? (layout.stacked ? 34 : 22) : 0);
  const height = Math.max(middle - top + below, layout.stacked ? 0 : 27 + under.length * 15);
  return {
    points,
    row: {
      id: row.id,
      href: row.href,
      top,
      height,
      bold,
      accent: row.id === input.named,
      full: row.label,
      label: {
        x: layout.label.x,
        y: baseline,
        text: fitText(row.label, layout.label.width, layout.size, bold),
      },
      usual: row.usual === null ? null : { x: layout.usualX, y: baseline, text: row.usual },
      under,
      middle,
      dots: dots.join(''),
      beyond: beyond.join(''),
      range,
      reference: reference && { path: reference.path, edge: reference.edge },
      bar,
      instead,
      waiting: waiting && drawWaiting(waiting, middle, layout, seconds),
    },
  };
}

/** The usual of the reference set; beyond the axis it stands at the edge with its value written to it. */
function drawReference(reference: { ratio: number; said: string }, middle: number, axis: RatioAxis) {
  const { at, out } = axis.at(reference.ratio);
  const anchor = out === 'high' ? ('end' as const) : ('start' as const);
  return {
    x: at,
    path: shapePath('diamond', at, middle, 5.5),
    edge: out === null ? null : { x: at + (out === 'low' ? -2 : 2), y: middle + 22, text: reference.said, anchor },
  };
}

function times(ratio: number): string {
  return `${ratio >= 10 ? Math.round(ratio) : Number(ratio.toFixed(2))} times`;
}
