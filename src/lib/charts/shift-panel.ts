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
  limits: readonly { path: string; name: Words | null }[];
  lines: readonly { path: string; dots: string; name: Words | null }[];
  /** At the edge: a value beyond the axis. */
  beyond: string;
  signal: { ring: string; words: Words } | null;
};

export type ShiftPlace = { left: number; right: number; top: number; bottom: number; small: number; axis: ShiftAxis };

/** A row of cases, from the case at `from` on, `step` px each. */
export function shiftPanel(
  input: ShiftInput,
  { from, cases, step, last }: { from: number; cases: readonly ShiftCase[]; step: number; last: boolean },
  place: ShiftPlace,
): { panel: ShiftPanel; points: Point[] } {
  const { left, right, top, bottom, small, axis } = place;
  const xs = cases.map((_, index) => px(left + (index + 0.5) * step));
  const beyond: string[] = [];
  const drawn = (values: readonly (number | undefined)[]) =>
    values.map((value, index) => {
      const x = xs[index] ?? left;
      return isHeight(value, input.unit) ? { x, y: axis.at(value).at, out: axis.at(value).out } : null;
    });

  const lines = input.lines.map((name, line) => {
    const marks = drawn(cases.map(({ at }) => at[line]));
    for (const mark of marks)
      if (mark?.out) beyond.push(shapePath(mark.out === 'high' ? 'up' : 'down', mark.x, mark.y, 3));
    const end = marks.findLast((mark) => mark !== null);
    return {
      path: joined(marks),
      dots: marks.map((mark) => (mark && !mark.out ? shapePath('circle', mark.x, mark.y, 1.9) : '')).join(''),
      name: last && end && name ? labelAt(name, end.x, end.y + (line === 0 ? -9 : 17), small, left, right) : null,
    };
  });
  const limits = input.limits.map(({ name, at }) => {
    const marks = drawn(at.slice(from, from + cases.length));
    const end = marks.findLast((mark) => mark !== null);
    const above = end ? end.y <= (top + bottom) / 2 : true;
    return {
      path: joined(marks, step / 2),
      name: end ? labelAt(name, end.x + step / 2, end.y + (above ? -5 : small + 3), small, left, right) : null,
    };
  });

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
      limits,
      lines,
      beyond: beyond.join(''),
      signal: signalOf(input, from, cases, xs, place),
    },
  };
}

/** A line through what is there, broken where nothing is. `reach`: how far it runs past its first and last point. */
function joined(marks: readonly ({ x: number; y: number } | null)[], reach = 0): string {
  return marks
    .map((mark, index) => {
      if (!mark) return '';
      const [first, end] = [!marks[index - 1], !marks[index + 1]];
      return `${first ? `M${px(mark.x - reach)},${mark.y}${reach > 0 ? `H${mark.x}` : ''}` : `L${mark.x},${mark.y}`}${end && reach > 0 ? `H${px(mark.x + reach)}` : ''}`;
    })
    .join('');
}

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
      name: labelAt(
        fitText(label, Math.max(b - a, 90), small),
        (a + b) / 2,
        top - 14,
        small,
        left,
        place.right,
        'middle',
      ),
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
  // Away from the middle, where the lines are not.
  const outward = y <= (top + bottom) / 2 ? -11 : small + 9;
  return { ring: shapePath('circle', x, y, 5.5), words: labelAt(signal.words, x, y + outward, small, left, right) };
}

/** Words near an edge lean inwards, so that they stay on the drawing. */
function labelAt(
  text: string,
  x: number,
  y: number,
  small: number,
  left: number,
  right: number,
  wanted?: 'middle',
): Words {
  const half = textWidth(text, small, true) / 2;
  const anchor = x + half > right ? 'end' : x - half < left ? 'start' : 'middle';
  const at = anchor === 'end' ? Math.min(x, right) : anchor === 'start' && !wanted ? Math.max(x, left) : x;
  return { x: px(at), y: px(y), text, anchor };
}
