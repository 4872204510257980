import { isRatio } from './ratio-axis';

export type DotAxis = {
  domain: readonly [number, number];
  ticks: readonly (readonly [ratio: number, label: string])[];
};

/** Step times with a factor against without it: 1 is the surgeon's own median. */
export const PATTERN_AXIS = {
  domain: [0.7, 2],
  ticks: [
    [0.7, '0.7'],
    [1, 'median'],
    [1.4, '1.4'],
    [2, '2 times'],
  ],
} as const satisfies DotAxis;

/** From the narrowest: a change over a whole record is often larger than what goes with an eye or a list. */
export const PATTERN_AXES = [
  PATTERN_AXIS,
  {
    domain: [0.5, 2],
    ticks: [
      [0.5, 'half'],
      [1, 'median'],
      [2, '2 times'],
    ],
  },
  {
    domain: [0.33, 2],
    ticks: [
      [0.35, '0.35'],
      [1, 'median'],
      [2, '2 times'],
    ],
  },
  {
    domain: [0.5, 4],
    ticks: [
      [0.5, 'half'],
      [1, 'median'],
      [2, '2 times'],
      [4, '4 times'],
    ],
  },
  {
    domain: [0.25, 4],
    ticks: [
      [0.25, '0.25'],
      [1, 'median'],
      [4, '4 times'],
    ],
  },
] as const satisfies readonly DotAxis[];

/** The window against the baseline cases: 100 is the median of the baseline cases. */
export const CHANGE_AXIS = {
  domain: [0.5, 1.5],
  ticks: [
    [0.5, 'half'],
    [0.7, '70'],
    [1, '100'],
    [1.4, '140'],
  ],
} as const satisfies DotAxis;

export const CHANGE_AXES = [
  CHANGE_AXIS,
  {
    domain: [0.5, 2.2],
    ticks: [
      [0.5, 'half'],
      [0.7, '70'],
      [1, '100'],
      [1.4, '140'],
      [2, 'double'],
    ],
  },
  {
    domain: [0.22, 2.2],
    ticks: [
      [0.25, '25'],
      [0.5, 'half'],
      [1, '100'],
      [2, 'double'],
    ],
  },
] as const satisfies readonly DotAxis[];

/**
 * The first axis that holds every value with its interval, else the last: there an arrow stands for what lies beyond,
 * and the numbers beside the row say how far.
 * @param axes from the narrowest to the widest, at least one
 */
export function axisFor(
  rows: readonly { ratio: number; low: number; high: number }[],
  axes: readonly [DotAxis, ...DotAxis[]],
): DotAxis {
  const values = rows.flatMap(({ ratio, low, high }) => [ratio, low, high]).filter(isRatio);
  const holds = ({ domain: [from, to] }: DotAxis) => values.every((value) => value >= from && value <= to);
  return axes.find(holds) ?? axes[axes.length - 1] ?? axes[0];
}
