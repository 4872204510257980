import { cannotDraw, FULL, NARROW, px, type CannotDraw, type Drawing, type Point, type Width } from './drawn';
import { isRatio, ratioAxis } from './ratio-axis';
import type { RunInput } from './run-input';
import { drawPanel, type DrawnPanel } from './run-panel';
import { runPanels } from './run-panels';

export type RunDrawing = Drawing & {
  size: number;
  small: number;
  left: number;
  right: number;
  panels: readonly DrawnPanel[];
  /** Cases of a shortened period that are not drawn. */
  notDrawn: number;
};

/** Log axis: half and double lie equally far from the median. Up is longer. */
const DOMAIN = [0.45, 2.2] as const;
/** It grows to hold every case; what is a fifth or five times stands at its edge. */
const FURTHEST = [0.19, 5.3] as const;

function domainOf(input: RunInput): readonly [number, number] {
  const ratios = input.cases.flatMap(({ ratio, leftOut }) => (isRatio(ratio) && !leftOut ? [ratio] : []));
  const low = Math.min(DOMAIN[0], ...ratios.map((ratio) => ratio / 1.06));
  const high = Math.max(DOMAIN[1], ...ratios.map((ratio) => ratio * 1.06));
  return [Math.max(low, FURTHEST[0]), Math.min(high, FURTHEST[1])];
}

/**
 * Cases in order of time, each against the baseline median. A case without a ratio keeps its place, so that lists and
 * events below it stay where they belong.
 * @param low lower than it is wide by far: on a sheet that it shares with text
 */
export function afterRun(input: RunInput, width: Width, low = false): RunDrawing | CannotDraw {
  if (!input.cases.some((each) => isRatio(each.ratio))) return cannotDraw('No case of this step can be drawn yet.');
  const narrow = width === NARROW;
  const [size, small] = [14, 13];
  const left = narrow ? 56 : 64;
  const right = width - 6;
  const high = narrow ? 190 : low ? 130 : width === FULL ? 220 : 230;

  const domain = domainOf(input);
  const panels: DrawnPanel[] = [];
  const points: Point[][] = [];
  let top = 26;
  const planned = runPanels(input, right - left, width);
  for (const panel of planned) {
    const axis = ratioAxis(
      domain,
      [top + high, top],
      [
        [4, '4 times'],
        [2, 'double'],
        [1.4, '140'],
        [1, input.one],
        [0.7, '70'],
        [0.5, 'half'],
        [0.25, 'a quarter'],
      ],
    );
    const drawn = drawPanel(panel, input, { axis, left, right, top, bottom: top + high, small });
    panels.push(drawn.panel);
    points.push(drawn.points);
    top = drawn.panel.end + 42;
  }
  const drawnCases = planned.reduce((sum, panel) => sum + panel.count, 0);
  return {
    kind: 'drawing',
    width,
    height: px(top - 32),
    points,
    size,
    small,
    left,
    right,
    panels,
    notDrawn: input.cases.length - drawnCases,
  };
}
