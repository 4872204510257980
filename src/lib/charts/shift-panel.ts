import { px, type Point } from './drawn';
import { shapePath } from './shapes';
import { isHeight, type ShiftAxis } from './shift-axis';
import type { ShiftCase, ShiftInput } from './shift-input';
import { fitText, textWidth } from './text-fit';

type Words = { x: number; y: number; text: string; anchor: 'start' | 'middle' | 'end' };

export type ShiftPanel = {
  ticks: ShiftAxis['ticks'];
  /** Over the cases of a period: a bracket with its name. */
  brackets: readonly { path: string; name: Words }[];
  /** Dotted lines between periods. */
  breaks: readonly { x: number; from: number; to: number }[];
  limits: readonly string[];
  lines: readonly { path: string; dots: string }[];
  /** Right of the plot, beside the ends of lines and limits. */
  names: readonly Words[];
  /** At the edge: a value beyond the axis. */
  beyond: string;
  /** The first case beyond a limit: a ring, and its name at the edge of the plot, where the lines are not. */
  signal: { ring: string; leader: string; words: Words } | null;
};

export type ShiftPlace = { left: number; right: number; top: number; bottom: number; small: number; axis: ShiftAxis };

type Mark = { x: number; y: number; out: 'low' | 'high' | null };

/** A row of cases, from the case at `from` on, `step` px each; `last`: the row in which the lines end. */
export function shiftPanel(
  input: ShiftInput,
  { from, cases, step, last }: { from: number; cases: readonly ShiftCase[]; step: number; last: boolean },
  place: ShiftPlace,
): { panel: ShiftPanel; points: Point[] } {
  const { left, bottom, axis } = place;
  const xs = cases.map((_, index) => px(left + (index + 0.5) * step));
  const marksOf = (values: readonly (number | undefined)[]) =>
    values.map((value, index): Mark | null =>
      isHeight(value, input.unit) ? { x: xs[index] ?? left, y: axis.at(value).at, out: axis.at(value).out } : null,
    );
  const lines = input.lines.map((name, line) => ({ name, marks: marksOf(cases.map(({ at }) => at[line])) }));
  const limits = input.limits.map(({ name, at }) => ({ name, marks: marksOf(at.slice(from, from + cases.length)) }));
  const points = cases.map((each, index): Point => {
    // Of two lines the one further out is where the eye goes.
    const heights = each.at.filter((value) => isHeight(value, input.unit));
    const far = heights.reduce((most, value) => (Math.abs(value) > Math.abs(most) ? value : most), heights[0] ?? NaN);
    return { x: xs[index] ?? left, y: isHeight(far, input.unit) ? axis.at(far).at : bottom, say: each.said };
  });
  return {
    points,
    panel: {
      ticks: axis.ticks,
      ...periodsOf(input, cases, step, place),
      limits: limits.map(({ marks }) => joined(marks, step / 2)),
      lines: lines.map(({ marks }) => ({
        path: joined(marks),
        dots: marks.map((mark) => (mark && !mark.out ? shapePath('circle', mark.x, mark.y, 1.9) : '')).join(''),
      })),
      names: namesAtEnd([...limits, ...(last ? lines : [])], place),
      beyond: lines
        .flatMap(({ marks }) => marks)
        .map((mark) => (mark?.out ? shapePath(mark.out === 'high' ? 'up' : 'down', mark.x, mark.y, 3) : ''))
        .join(''),
      signal: signalOf(input, from, cases, xs, place),
    },
  };
}

/** Names beside the ends of their lines, pushed apart where they would lie on each other. */
function namesAtEnd(
  ends: readonly { name: string; marks: readonly (Mark | null)[] }[],
  { right, small }: ShiftPlace,
): Words[] {
  const wanted = ends
    .flatMap(({ name, marks }) => {
      const end = marks.findLast((mark) => mark !== null);
      return end && name ? [{ x: right + 5, y: px(end.y + 4), text: name, anchor: 'start' as const }] : [];
    })
    .sort((a, b) => a.y - b.y);
  let free = -Infinity;
  return wanted.map((words) => {
    const y = Math.max(words.y, free);
    free = y + small + 2;
    return { ...words, y };
  });
}

/** A line through what is there, broken where nothing is or it lies beyond the axis. `reach`: how far it runs past its first and last point. */
function joined(marks: readonly (Mark | null)[], reach = 0): string {
  const drawn = marks.map((mark) => (mark?.out ? null : mark));
  return drawn
    .map((mark, index) => {
      if (!mark) return '';
      const [first, end] = [!drawn[index - 1], !drawn[index + 1]];
      return `${first ? `M${px(mark.x - reach)},${mark.y}${reach > 0 ? `H${mark.x}` : ''}` : `L${mark.x},${mark.y}`}${end && reach > 0 ? `H${px(mark.x + reach)}` : ''}`;
    })
    .join('');
}

/** A bracket narrower than this, px, has no room for a word. */
const LEAST_NAME = 40;

function periodsOf(input: ShiftInput, cases: readonly ShiftCase[], step: number, place: ShiftPlace) {
  const { left, top, bottom, small } = place;
  const brackets: ShiftPanel['brackets'][number][] = [];
  const breaks: ShiftPanel['breaks'][number][] = [];
  let from = 0;
  cases.forEach((each, index) => {
    if (cases[index + 1]?.period === each.period) return;
    const [a, b] = [px(left + from * step + 2), px(left + (index + 1) * step - 2)];
    const label = input.periods[each.period]?.label ?? '';
    brackets.push({
      path: `M${a},${top - 4}v-6H${b}v6`,
      name: {
        x: px((a + b) / 2),
        y: top - 14,
        text: b - a < LEAST_NAME ? '' : fitText(label, b - a, small),
        anchor: 'middle',
      },
    });
    if (from > 0) breaks.push({ x: px(left + from * step), from: top, to: bottom });
    from = index + 1;
  });
  return { brackets, breaks };
}

function signalOf(
  { signal, unit }: ShiftInput,
  from: number,
  cases: readonly ShiftCase[],
  xs: readonly number[],
  { axis, left, right, small, top, bottom }: ShiftPlace,
): ShiftPanel['signal'] {
  if (!signal) return null;
  const index = signal.index - from;
  const value = cases[index]?.at[signal.line];
  const x = xs[index];
  if (x === undefined || !isHeight(value, unit)) return null;
  const y = axis.at(value).at;
  const up = y <= (top + bottom) / 2;
  const edge = up ? top + small : bottom - 5;
  const ring = shapePath('circle', x, y, 5.5);
  // A ring that lies at the edge itself has its name on the inner side, and needs no line to it.
  if (Math.abs(edge - y) < 2 * small)
    return { ring, leader: '', words: labelAt(signal.words, x, up ? y + small + 9 : y - 11, small, left, right) };
  return {
    ring,
    leader: up ? `M${x},${px(y - 5.5)}V${px(edge + 3)}` : `M${x},${px(y + 5.5)}V${px(edge - small)}`,
    words: labelAt(signal.words, x, edge, small, left, right),
  };
}

/** Words near an edge lean inwards, so that they stay on the drawing. */
function labelAt(text: string, x: number, y: number, small: number, left: number, right: number): Words {
  const half = textWidth(text, small, true) / 2;
  const anchor = x + half > right ? 'end' : x - half < left ? 'start' : 'middle';
  const at = anchor === 'end' ? Math.min(x, right) : anchor === 'start' ? Math.max(x, left) : x;
  return { x: px(at), y: px(y), text, anchor };
}
