import { px, type Point } from './drawn';
import { isRatio, type RatioAxis } from './ratio-axis';
import type { RunCase, RunInput } from './run-input';
import { drawLane, type DrawnLane } from './run-lane';
import type { Panel } from './run-panels';
import { drawSegment, type DrawnSegment, type Place } from './run-segment';

export type DrawnPanel = {
  top: number;
  bottom: number;
  ticks: RatioAxis['ticks'];
  segments: readonly DrawnSegment[];
  /** Dotted lines between periods. */
  breaks: readonly number[];
  lanes: readonly DrawnLane[];
  end: number;
};

const LANE = 20;

/** Periods side by side on one axis, with their lanes beneath. */
export function drawPanel(panel: Panel, input: RunInput, place: Place): { panel: DrawnPanel; points: Point[] } {
  // A short run is not stretched over the whole width: neighbours would look far apart in time.
  const step = Math.min(18, (place.right - place.left) / panel.count);
  const segments: DrawnSegment[] = [];
  const points: Point[] = [];
  const placed: { x: number; each: RunCase }[] = [];
  const breaks: number[] = [];
  let x = place.left;
  for (const segment of panel.segments) {
    const from = x;
    const here = segment.cases.map((each, index) => ({ x: px(from + (index + 0.5) * step), each }));
    x = from + segment.cases.length * step;
    if (segments.length > 0) breaks.push(px(from));
    placed.push(...here);
    segments.push(drawSegment(segment, here, input, { ...place, from: px(from), to: px(x) }));
    for (const { x: at, each } of here) {
      const y = isRatio(each.ratio) ? place.axis.at(each.ratio).at : place.bottom;
      points.push({ x: at, y, say: `${input.periods[segment.period]?.label ?? ''}, case ${each.code}: ${each.said}` });
    }
  }
  const lanes = input.lanes.map((name, index) => drawLane(name, placed, step, place.bottom + 18 + index * LANE));
  return {
    points,
    panel: {
      top: place.top,
      bottom: place.bottom,
      ticks: place.axis.ticks,
      segments,
      breaks,
      lanes,
      end: place.bottom + input.lanes.length * LANE + 4,
    },
  };
}
