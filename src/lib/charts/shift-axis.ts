import { scaleLinear, scaleLog } from 'd3';
import { px } from './drawn';
import type { ShiftInput } from './shift-input';

export type ShiftAxis = {
  /** Position of a value, held inside the axis; `out` says on which side it lay beyond it. */
  at: (value: number) => { at: number; out: 'low' | 'high' | null };
  ticks: readonly { at: number; label: string; centre: boolean }[];
};

/** The narrowest that holds everything is taken; further out a value stands at the edge. */
const RATIO_AXES = [
  { domain: [0.66, 1.52], ticks: [0.7, 0.85, 1, 1.2, 1.4] },
  { domain: [0.57, 1.75], ticks: [0.6, 0.75, 1, 1.3, 1.6] },
  { domain: [0.45, 2.2], ticks: [0.5, 0.7, 1, 1.4, 2] },
  { domain: [0.2, 5], ticks: [0.25, 0.5, 1, 2, 4] },
] as const;

/** A sum over many cases may run far away: beyond ten limits nothing of the limit itself could be seen. */
const SUM_BEYOND = 10;

/** Nothing measured is larger; a scale over numbers without end has no ticks. */
const MOST = 1e6;

/** Can it stand on the axis of this unit? */
export const isHeight = (value: number | undefined, unit: ShiftInput['unit']): value is number =>
  value !== undefined && Math.abs(value) <= MOST && (unit === 'sd' || value > 0);

/** The axis of a chart, `bottom` and `top` in px; never throws, whatever the values. */
export function shiftAxis(input: ShiftInput, bottom: number, top: number): ShiftAxis {
  const heights = (values: readonly number[]) => values.filter((value) => isHeight(value, input.unit));
  const lines = heights(input.cases.flatMap(({ at }) => at));
  const limits = heights(input.limits.flatMap(({ at }) => at));
  return input.unit === 'ratio' ? ratios([...lines, ...limits], bottom, top) : sums(lines, limits, bottom, top);
}

function ratios(values: readonly number[], bottom: number, top: number): ShiftAxis {
  const wide = RATIO_AXES[RATIO_AXES.length - 1] ?? RATIO_AXES[0];
  const { domain, ticks } =
    RATIO_AXES.find(({ domain: [low, high] }) => values.every((value) => value > low && value < high)) ?? wide;
  const scale = scaleLog().domain(domain).range([bottom, top]).clamp(true);
  return {
    at: (value) => ({ at: px(scale(value)), out: outOf(value, domain) }),
    ticks: ticks.map((ratio) => ({
      at: px(scale(ratio)),
      label: String(Math.round(ratio * 100)),
      centre: Math.abs(ratio - 1) < 1e-9,
    })),
  };
}

/** As far up as down, so that the two lines can be compared. */
function sums(lines: readonly number[], limits: readonly number[], bottom: number, top: number): ShiftAxis {
  const furthest = (values: readonly number[]) => values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const limit = furthest(limits);
  const line = furthest(lines);
  const most = Math.max(1, 1.25 * limit, limit > 0 ? Math.min(1.1 * line, SUM_BEYOND * limit) : 1.1 * line);
  const domain = [-most, most] as const;
  const scale = scaleLinear().domain(domain).range([bottom, top]).clamp(true);
  return {
    at: (value) => ({ at: px(scale(value)), out: outOf(value, domain) }),
    ticks: scale
      .ticks(7)
      .map((value) => ({ at: px(scale(value)), label: String(Math.abs(value)), centre: value === 0 })),
  };
}

function outOf(value: number, [low, high]: readonly [number, number]): 'low' | 'high' | null {
  if (value > high) return 'high';
  return value < low ? 'low' : null;
}
