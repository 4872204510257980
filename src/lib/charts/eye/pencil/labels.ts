import { textWidth } from '../../text-fit';
import { add, size, sub, times, unit, type Point } from './points';
import type { Label } from './marks';

/** x, y, width and height of what is shown, in px. */
export type Frame = readonly [x: number, y: number, width: number, height: number];
type Box = { left: number; top: number; right: number; bottom: number };
export type PlacedLabel = {
  x: number;
  /** Baseline of the first line. */
  y: number;
  anchor: 'start' | 'middle' | 'end';
  box: Box;
  leader: readonly [Point, Point] | null;
};

export const LABEL_SIZE = 13;
export const LABEL_LINE = 15;
const MARGIN = 3;

/**
 * Where the words of a label stand in a frame, the box they fill (by an over-estimate of their width), and the leader from
 * the nearest place at that box to what they name.
 */
export function placeLabel({ lines, place, to, strong }: Label, [x, y, width, height]: Frame): PlacedLabel {
  const wide = Math.max(...lines.map((each) => textWidth(each, LABEL_SIZE, strong)));
  const tall = (lines.length - 1) * LABEL_LINE;
  const low = y + height - MARGIN - 3 - tall;
  const high = y + MARGIN + 10;
  const spot = (): Pick<PlacedLabel, 'x' | 'y' | 'anchor'> => {
    if (typeof place !== 'string') return { x: place.at[0], y: place.at[1], anchor: place.anchor };
    const vertical = place === 'top' || place.startsWith('t') ? high : low;
    if (place === 'top' || place === 'bottom') return { x: x + width / 2, y: vertical, anchor: 'middle' };
    return place.endsWith('l')
      ? { x: x + MARGIN, y: vertical, anchor: 'start' }
      : { x: x + width - MARGIN, y: vertical, anchor: 'end' };
  };
  const at = spot();
  const left = at.anchor === 'start' ? at.x : at.anchor === 'middle' ? at.x - wide / 2 : at.x - wide;
  const box = { left, top: at.y - 10, right: left + wide, bottom: at.y + tall + 3 };
  return { ...at, box, leader: to && leaderTo(to, box) };
}

/** From the middle of a side, or from a corner of the box, whichever the target is nearest to; a little air at the words. */
function leaderTo(to: Point, box: Box): readonly [Point, Point] {
  const inset = Math.min(14, (box.right - box.left) / 2);
  const start: Point = [
    Math.min(box.right - inset, Math.max(box.left + inset, to[0])),
    to[1] > box.bottom ? box.bottom + 1 : to[1] < box.top ? box.top - 1 : (box.top + box.bottom) / 2,
  ];
  const level = to[1] >= box.top && to[1] <= box.bottom;
  const begin: Point = level ? [to[0] > box.right ? box.right + 3 : box.left - 3, start[1]] : start;
  const way = sub(to, begin);
  return [add(begin, times(unit(way), Math.min(2, size(way) / 4))), to];
}
