/** A place on the drawing in px, x to the right and y downwards. */
export type Point = readonly [x: number, y: number];

export const RADIANS = Math.PI / 180;

export const add = (p: Point, q: Point): Point => [p[0] + q[0], p[1] + q[1]];
export const sub = (p: Point, q: Point): Point => [p[0] - q[0], p[1] - q[1]];
export const times = (p: Point, k: number): Point => [p[0] * k, p[1] * k];
export const size = (p: Point): number => Math.hypot(p[0], p[1]);
/** The same direction with a length of one; a point without direction stays where it is. */
export const unit = (p: Point): Point => times(p, 1 / (size(p) || 1));
/** A quarter turn clockwise, as seen on the drawing. */
export const across = (p: Point): Point => [-p[1], p[0]];
export const between = (p: Point, q: Point, share: number): Point => [
  p[0] + (q[0] - p[0]) * share,
  p[1] + (q[1] - p[1]) * share,
];

/** Turned clockwise about a point. */
export function turned(p: Point, degrees: number, about: Point = [0, 0]): Point {
  const [x, y] = sub(p, about);
  const [c, s] = [Math.cos(degrees * RADIANS), Math.sin(degrees * RADIANS)];
  return add(about, [x * c - y * s, x * s + y * c]);
}

/** From a start, so far along a direction and so far to the right of it. */
export const from = (start: Point, along: Point, far: number, aside = 0): Point =>
  add(start, add(times(along, far), times(across(along), aside)));
