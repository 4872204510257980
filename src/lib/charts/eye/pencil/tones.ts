import { itemAt } from '../../../item-at';
import { chance } from './chance';
import { bounds, inside } from './curves';
import { turned, type Point } from './points';

type Contours = readonly (readonly Point[])[];

/**
 * Parallel lines that fill a shape, a little uneven, as from a hand.
 * @param angle degrees, clockwise from the horizontal
 * @param gap px between lines
 */
export function hatchLines(contours: Contours, angle: number, gap: number): Point[][] {
  const next = chance(3);
  const level = contours.map((each) => each.map((p) => turned(p, -angle)));
  const [, top, , bottom] = bounds(level.flat());
  const lines: Point[][] = [];
  for (let row = top + gap / 2; row < bottom; row += gap) {
    const y = row + (next() - 0.5) * gap * 0.18;
    const crossings: number[] = [];
    for (const p of level)
      for (let i = 0, j = p.length - 1; i < p.length; j = i++) {
        const [x0, y0] = itemAt(p, i);
        const [x1, y1] = itemAt(p, j);
        if (y0 > y !== y1 > y) crossings.push(x0 + ((y - y0) * (x1 - x0)) / (y1 - y0));
      }
    crossings.sort((a, b) => a - b);
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const a = itemAt(crossings, i) + next() * 1.2;
      const b = itemAt(crossings, i + 1) - next() * 1.2;
      if (b - a > 2) lines.push([turned([a, y], angle), turned([b, y], angle)]);
    }
  }
  return lines;
}

/** Dots that fill a shape evenly without a grid (each at least `gap` px from the others). */
export function stippleDots(contours: Contours, gap: number): Point[] {
  const next = chance(7);
  const [left, top, right, bottom] = bounds(contours.flat());
  const tries = (((right - left) * (bottom - top)) / gap ** 2) * 9;
  const cell = (p: Point) => `${Math.floor(p[0] / gap)},${Math.floor(p[1] / gap)}`;
  const taken = new Map<string, Point[]>();
  const dots: Point[] = [];
  for (let i = 0; i < tries; i++) {
    const p: Point = [left + next() * (right - left), top + next() * (bottom - top)];
    if (!inside(contours, p)) continue;
    const [cx, cy] = [Math.floor(p[0] / gap), Math.floor(p[1] / gap)];
    const near = [-1, 0, 1].flatMap((dx) => [-1, 0, 1].flatMap((dy) => taken.get(`${cx + dx},${cy + dy}`) ?? []));
    if (near.some((q) => Math.hypot(q[0] - p[0], q[1] - p[1]) < gap)) continue;
    taken.set(cell(p), [...(taken.get(cell(p)) ?? []), p]);
    dots.push(p);
  }
  return dots;
}
