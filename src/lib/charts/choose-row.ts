import type { ChooseInput, ChooseRow } from './choose-input';
import type { ChooseLayout } from './choose-layout';
import { drawBar, drawWaiting, type Seconds } from './choose-bar';
import { px, type Point } from './drawn';
import { jitter } from './jitter';
import { isRatio, type RatioAxis } from './ratio-axis';
import { shapePath } from './shapes';
import { fitText, textWidth, wrapText } from './text-fit';

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
  /** "suggested": small, under the name, or beside it on a phone. */
  under: Words | null;
  /** Middle of the strip. */
  middle: number;
  dots: string;
  /** Cases beyond the axis, at its edge. */
  beyond: string;
  range: { from: number; to: number; y: number } | null;
  reference: { path: string; edge: (Words & { anchor: 'start' | 'end' }) | null } | null;
  bar: ReturnType<typeof drawBar>;
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
  const waiting = row.waiting && row.waiting.seconds > 0 && Number.isFinite(row.waiting.seconds) ? row.waiting : null;
  const middle = top + layout.middle;
  const baseline = top + layout.baseline;
  const name = fitText(row.label, layout.label.width, layout.size, bold);
  const under = !row.suggested
    ? null
    : layout.stacked
      ? { x: px(textWidth(name, layout.size, bold) + 8), y: baseline, text: 'suggested' }
      : { x: layout.label.x, y: baseline + 14, text: 'suggested' };

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
    const eye = input.eyes?.get(dot.code);
    points.push({
      x: x.at,
      y,
      say: `${row.label}, case ${dot.code}: ${dot.said}, ${times(dot.ratio)} your median when adjusted for the eye${eye ? `; ${eye}` : ''}`,
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

  return {
    points,
    row: {
      id: row.id,
      href: row.href,
      top,
      height: layout.pitch,
      bold,
      accent: row.id === input.named,
      full: row.label,
      label: {
        x: layout.label.x,
        y: baseline,
        text: name,
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

/** The median of the reference set; beyond the axis it is drawn at the edge with its value beside it. */
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
