import { barScale } from './choose-bar';
import type { ChooseInput } from './choose-input';
import { CHOOSE_LAYOUT, STRIP_DOMAIN, type ChooseLayout } from './choose-layout';
import { cannotDraw, NARROW, WIDE, type CannotDraw, type Drawing, type Point, type Width } from './drawn';
import { drawRow, type DrawnChooseRow, type Words } from './choose-row';
import { ratioAxis, type RatioAxis } from './ratio-axis';

export type ChooseDrawing = Drawing & {
  layout: ChooseLayout;
  ticks: RatioAxis['ticks'];
  barHead: Words | null;
  rows: readonly DrawnChooseRow[];
  /** Lines through all rows run from here to here. */
  lines: readonly [number, number];
};

/**
 * One row a step, in the order given.
 * @param input ratios and seconds; what is not a finite number > 0 is left out of the drawing, never drawn at 0
 * @param width of the drawing, px
 */
export function chooseRows(input: ChooseInput, width: Width): ChooseDrawing | CannotDraw {
  if (input.rows.length === 0) return cannotDraw('No step has been timed yet.');
  const layout: ChooseLayout = CHOOSE_LAYOUT[width === NARROW ? NARROW : WIDE];
  const axis = ratioAxis(STRIP_DOMAIN, layout.strip, [
    [0.5, 'half'],
    [1, 'your median'],
    [2, 'double'],
  ]);
  const seconds = barScale(input.rows, layout);

  const rows: DrawnChooseRow[] = [];
  const points: Point[][] = [];
  let top = layout.head;
  input.rows.forEach((row, index) => {
    const drawn = drawRow(row, index, top, { input, layout, axis, seconds });
    rows.push(drawn.row);
    points.push(drawn.points);
    top += drawn.row.height;
  });
  return {
    kind: 'drawing',
    width,
    height: top + 4,
    points,
    layout,
    ticks: axis.ticks,
    // On a phone the caption says it: there is no room for a third head beside the other two.
    barHead: layout.stacked ? null : { x: layout.bar[0], y: layout.head - 10, text: 'median less 20th percentile' },
    rows,
    lines: [layout.head - 4, top],
  };
}
