import { cannotDraw, NARROW, px, type CannotDraw, type Drawing, type Point, type Width } from './drawn';
import { LEAST_PER_CASE } from './run-panels';
import { isHeight, shiftAxis } from './shift-axis';
import type { ShiftInput } from './shift-input';
import { shiftPanel, type ShiftPanel } from './shift-panel';
import { textWidth } from './text-fit';

export type ShiftDrawing = Drawing & {
  small: number;
  left: number;
  right: number;
  panels: readonly (ShiftPanel & { top: number; bottom: number })[];
};

/** A short run is not stretched over the whole width: neighbours would look far apart in time. */
const MOST_PER_CASE = 22;

/**
 * Cases after the start, each height resting on the cases before it: a moving average, or cumulative sums, with limits.
 * All panels share one axis. A value that is no number leaves a hole; with none at all nothing is drawn.
 */
export function shiftChart(input: ShiftInput, width: Width): ShiftDrawing | CannotDraw {
  const any = input.cases.some(({ at }) => at.some((value) => isHeight(value, input.unit)));
  if (!any) return cannotDraw('No case after the start can be drawn yet.');
  const narrow = width === NARROW;
  const small = narrow ? 12 : 12.5;
  const names = [...input.lines, ...input.limits.map(({ name }) => name)].map((name) => textWidth(name, small));
  const [left, right] = [narrow ? 38 : 46, width - Math.max(0, ...names) - 8];
  const high = narrow ? 170 : 190;

  const fits = Math.floor((right - left) / LEAST_PER_CASE);
  const rows = Math.ceil(input.cases.length / fits);
  // Rows of about the same length: a last one of two cases would look like an afterthought.
  const perRow = Math.ceil(input.cases.length / rows);
  const step = Math.min(MOST_PER_CASE, (right - left) / perRow);

  const panels: ShiftDrawing['panels'][number][] = [];
  const points: Point[][] = [];
  let top = 28;
  for (let row = 0; row < rows; row += 1) {
    const from = row * perRow;
    const cases = input.cases.slice(from, from + perRow);
    const bottom = top + high;
    const place = { left, right, top, bottom, small, axis: shiftAxis(input, bottom, top) };
    const drawn = shiftPanel(input, { from, cases, step, last: row === rows - 1 }, place);
    panels.push({ ...drawn.panel, top, bottom });
    points.push(drawn.points);
    top = bottom + 46;
  }
  return { kind: 'drawing', width, height: px(top - 34), points, small, left, right, panels };
}
