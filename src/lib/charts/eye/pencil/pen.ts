import { itemAt } from '../../../item-at';
import { evenly } from './curves';
import { across, add, sub, times, unit, type Point } from './points';
import type { Pen } from './marks';

/**
 * The outline of a pen stroke: thin where it lands and lifts, heavier on the side away from the light (upper left), as an
 * engraver would.
 * @param thicker factor on the width, for the small form
 * @returns one contour, or two (outer and inner, even-odd) for a closed stroke
 */
export function strokeOutline({ points, width, closed, land, lift }: Pen, thicker = 1): Point[][] {
  const course = evenly(closed ? [...points, itemAt(points, 0)] : points, Math.min(9, Math.max(4, points.length / 3)));
  if (closed) course.pop();
  const n = course.length;
  const left: Point[] = [];
  const right: Point[] = [];
  course.forEach((p, i) => {
    const before = closed ? itemAt(course, (i - 1 + n) % n) : itemAt(course, Math.max(0, i - 1));
    const after = closed ? itemAt(course, (i + 1) % n) : itemAt(course, Math.min(n - 1, i + 1));
    const side = across(unit(sub(after, before)));
    const t = i / (n - 1);
    const shade = 1 + 0.22 * (side[0] * 0.5 + side[1] * 0.85) * (closed ? 1 : 0.6);
    const taper = closed ? 1 : 0.3 + 0.7 * Math.min(1, t / land, (1 - t) / lift);
    const half = times(side, (width * thicker * shade * taper) / 2);
    left.push(add(p, half));
    right.push(sub(p, half));
  });
  return closed ? [left, right] : [[...left, ...right.reverse()]];
}
