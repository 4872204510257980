import { itemAt } from '../../../item-at';
import { range, spline } from '../pencil/curves';
import { area, edge, hair, hatch, line, pen, type Marks } from '../pencil/marks';
import { across, add, between, times, RADIANS, type Point } from '../pencil/points';
import type { Frame } from '../pencil/labels';

/**
 * The wall of the eye cut through the limbus: sclera (radius 11.5 mm) on the left, the steeper cornea (7.8 mm) rising from
 * it. `place(q, d)`: q mm along the surface (0 at the limbus, cornea positive), d mm below it. The whole is turned by 13
 * degrees to fit the frame, so that the iris slants.
 */
export const WALL: Frame = [-160, -70, 320, 284];
export const WALL_CLOSE: Frame = [-156, -56, 312, 240];
const PER_MM = 52;
const TURN = 13;
const LEFT = -2.9;
const RIGHT = 2.9;
const ORIGIN: Point = [-2, 64];
/** Thickness in mm, drawn a little over life. */
export const THICK = 0.78;
/** The groove of a tunnel: mm behind the limbus. */
export const GROOVE = -1.75;

const slope = (q: number) =>
  (q < 0 ? 31 - q * 4.98 : 49 - q * 7.35) + (q < 0 ? 18 / (1 + Math.exp(-q * 9)) : -18 / (1 + Math.exp(q * 9))) - TURN;

const STEP = 0.02;
function course(sign: 1 | -1): Point[] {
  const points: Point[] = [[0, 0]];
  for (let q = 0; Math.abs(q) < 4.4; q += sign * STEP) {
    const a = slope(q) * RADIANS;
    points.push(add(itemAt(points, points.length - 1), times([Math.cos(a), -Math.sin(a)], sign * STEP)));
  }
  return points;
}
const CORNEA = course(1);
const SCLERA = course(-1);

export function place(q: number, d = 0): Point {
  const half = q < 0 ? SCLERA : CORNEA;
  const k = Math.min(half.length - 2, Math.abs(q) / STEP);
  const on = between(itemAt(half, Math.floor(k)), itemAt(half, Math.floor(k) + 1), k - Math.floor(k));
  const a = slope(q) * RADIANS;
  return add(ORIGIN, times(add(on, times([Math.sin(a), Math.cos(a)], d)), PER_MM));
}

type Depth = number | ((q: number) => number);
/** Along the wall at a depth in mm, which may change on the way. */
export const layer = (depth: Depth, a: number, b: number, count = 22): Point[] =>
  range(a, b, count, (q) => place(q, typeof depth === 'function' ? depth(q) : depth));

/** A direction in the picture, by its angle above the plane of the iris. */
export const above = (degrees: number): Point => [
  Math.cos((degrees - TURN) * RADIANS),
  -Math.sin((degrees - TURN) * RADIANS),
];
export const perMm = (length: number) => length * PER_MM;

type Wall = {
  inner?: Depth;
  /** How far the roof of a tunnel is lifted, in mm. */
  lift?: (q: number) => number;
  groove?: number | null;
  lamellae?: readonly [number, number];
  iris?: boolean;
};

export function wallOfEye({
  inner = THICK,
  lift = () => 0,
  groove = GROOVE,
  lamellae = [0.9, 2.85],
  iris = true,
}: Wall = {}): Marks {
  const g = groove ?? LEFT;
  const up = (q: number) => (q < g ? 0 : -lift(q));
  return [
    hatch([...layer(up, LEFT, -0.1, 24), ...layer(THICK, -0.3, LEFT, 14)], -24, 5),
    hair([0.2, 0.5, 0.8].map((share) => layer(THICK * share, lamellae[0], lamellae[1], 10))),
    groove === null
      ? pen(layer(0, LEFT, RIGHT, 50), 2.4, { land: 0.02, lift: 0.02 })
      : [
          pen(layer(0, LEFT, g - 0.28, 10), 2.4, { land: 0.05, lift: 0.02 }),
          pen(layer(up, g, RIGHT, 36), 2.4, { land: 0.01, lift: 0.02 }),
        ],
    pen(layer(inner, LEFT, RIGHT - 0.06, 70), 1.8, { land: 0.02, lift: 0.02 }),
    iris ? wallIris() : [],
  ];
}

/** Iris in the frame of the wall, x along its plane from its root and y across it, in mm. */
export function inIris(x: number, y: number): Point {
  const plane = above(0);
  return add(place(-0.55, THICK), add(times(plane, x * PER_MM), times(across(plane), y * PER_MM)));
}

export function wallIris(points?: readonly Point[]): Marks {
  const shape = spline(
    points ?? [
      inIris(-0.05, -0.12),
      inIris(0.5, 0.02),
      inIris(1.3, -0.02),
      inIris(2.1, 0.02),
      inIris(2.18, 0.12),
      inIris(2.05, 0.22),
      inIris(1.3, 0.24),
      inIris(0.5, 0.22),
      inIris(-0.1, 0.2),
    ],
  );
  return [area(shape), hatch(shape, 80, 4), edge(shape, 1.5)];
}

/** The limbus named, with its tick. */
export const limbusTick = (): Marks => line([place(0, -0.14), place(0, -0.03)], { sharp: true });
