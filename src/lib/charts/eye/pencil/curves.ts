import { itemAt } from '../../../item-at';
import { across, add, between, size, sub, times, unit, type Point, RADIANS } from './points';

/** A number for each of `count + 1` equal shares from a to b. */
export const range = <T>(a: number, b: number, count: number, each: (value: number) => T): T[] =>
  Array.from({ length: count + 1 }, (_, i) => each(a + ((b - a) * i) / count));

/** A place by radius in px and angle: clockwise from twelve o'clock. */
export const polar = (radius: number, angle: number): Point => [
  radius * Math.sin(angle * RADIANS),
  -radius * Math.cos(angle * RADIANS),
];

/** Points along a circle, one every six degrees or so. */
export const arcOf = (radius: number, a: number, b: number, centre: Point = [0, 0]): Point[] =>
  range(a, b, Math.max(2, Math.ceil(Math.abs(b - a) / 6)), (angle) => add(centre, polar(radius, angle)));

/** An ellipse, once round, turned clockwise by `tilt` degrees. */
export const ellipse = (centre: Point, rx: number, ry: number, tilt = 0): Point[] =>
  range(0, 350, 35, (angle) => {
    const [x, y] = [rx * Math.cos(angle * RADIANS), ry * Math.sin(angle * RADIANS)];
    const [c, s] = [Math.cos(tilt * RADIANS), Math.sin(tilt * RADIANS)];
    return add(centre, [x * c - y * s, x * s + y * c]);
  });

/** A smooth curve through all points (Catmull-Rom). */
export function spline(points: readonly Point[], per = 6): Point[] {
  const out: Point[] = [];
  for (let i = 0; i < points.length - 1; i++) {
    const b = itemAt(points, i);
    const c = itemAt(points, i + 1);
    const a = points[i - 1] ?? b;
    const d = points[i + 2] ?? c;
    for (let j = 0; j < per; j++) {
      const t = j / per;
      const at = (k: 0 | 1) =>
        0.5 *
        (2 * b[k] +
          (c[k] - a[k]) * t +
          (2 * a[k] - 5 * b[k] + 4 * c[k] - d[k]) * t ** 2 +
          (3 * b[k] - a[k] - 3 * c[k] + d[k]) * t ** 3);
      out.push([at(0), at(1)]);
    }
  }
  out.push(itemAt(points, points.length - 1));
  return out;
}

/** A closed smooth curve through all points. */
export const loop = (points: readonly Point[], per = 6): Point[] => {
  const n = points.length;
  const round = spline([itemAt(points, n - 1), ...points, itemAt(points, 0), itemAt(points, 1)], per);
  return round.slice(per, per * (n + 1));
};

/** The same course with points at about equal steps, at least three of them. */
export function evenly(points: readonly Point[], step: number): Point[] {
  const far = [0];
  for (let i = 1; i < points.length; i++)
    far.push(itemAt(far, i - 1) + size(sub(itemAt(points, i), itemAt(points, i - 1))));
  const whole = itemAt(far, far.length - 1);
  let j = 1;
  return range(0, whole, Math.max(2, Math.round(whole / step)), (s) => {
    while (j < far.length - 1 && itemAt(far, j) < s) j++;
    const part = itemAt(far, j) - itemAt(far, j - 1) || 1;
    return between(itemAt(points, j - 1), itemAt(points, j), (s - itemAt(far, j - 1)) / part);
  });
}

/** The direction of a course at one of its points. */
export const heading = (points: readonly Point[], i: number): Point =>
  unit(sub(itemAt(points, Math.min(i + 1, points.length - 1)), itemAt(points, Math.max(0, i - 1))));

/** The course laid to its right by `far` px (to its left, where negative). */
export const beside = (points: readonly Point[], far: number): Point[] =>
  points.map((p, i) => add(p, times(across(heading(points, i)), far)));

/** Whether a place lies inside contours, counted even-odd. */
export function inside(contours: readonly (readonly Point[])[], [x, y]: Point): boolean {
  let is = false;
  for (const p of contours)
    for (let i = 0, j = p.length - 1; i < p.length; j = i++) {
      const [a, b] = itemAt(p, i);
      const [u, v] = itemAt(p, j);
      if (b > y !== v > y && x < ((u - a) * (y - b)) / (v - b) + a) is = !is;
    }
  return is;
}

/** Left, top, right and bottom of all points. */
export function bounds(points: readonly Point[]): [number, number, number, number] {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}
