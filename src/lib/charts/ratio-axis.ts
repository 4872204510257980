import { scaleLog } from 'd3';
import { px } from './drawn';

/** A ratio on a log axis: a half and a double lie equally far from 1. */
export type RatioAxis = {
  /** Position of a ratio, held inside the axis; `out` says on which side it lay beyond it. */
  at: (ratio: number) => { at: number; out: 'low' | 'high' | null };
  ticks: readonly { at: number; label: string; ratio: number }[];
};

/**
 * @param domain lowest and highest ratio shown, both > 0
 * @param range their positions in px
 * @param ticks ratios with their words; those outside the domain are left out
 */
export function ratioAxis(
  domain: readonly [number, number],
  range: readonly [number, number],
  ticks: readonly (readonly [ratio: number, label: string])[],
): RatioAxis {
  const scale = scaleLog().domain(domain).range(range).clamp(true);
  return {
    at: (ratio) => ({
      at: px(scale(ratio)),
      out: ratio < domain[0] ? 'low' : ratio > domain[1] ? 'high' : null,
    }),
    ticks: ticks
      .filter(([ratio]) => ratio >= domain[0] && ratio <= domain[1])
      .map(([ratio, label]) => ({ at: px(scale(ratio)), label, ratio })),
  };
}

/** Is it a ratio that can be drawn at all? */
export function isRatio(value: number | null | undefined): value is number {
  return typeof value === 'number' && Number.isFinite(value) && value > 0;
}
