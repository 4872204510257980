import { chance } from '../pencil/chance';
import { range, spline } from '../pencil/curves';
import { area, edge, flat, hair, hatch, line, pen, type Marks } from '../pencil/marks';
import type { Frame } from '../pencil/labels';
import type { Point } from '../pencil/points';

/** The eye cut through its axis, cornea upwards: x in mm from the axis, y in mm down from the apex of the cornea. */
const PER_MM = 21.5;
export const SECTION: Frame = [-160, -34, 320, 248];
export const SECTION_CLOSE: Frame = [-148, -26, 296, 222];

export const mm = (x: number, y: number): Point => [x * PER_MM, y * PER_MM];
export const run = (f: (x: number) => number, a: number, b: number, count = 14): Point[] =>
  range(a, b, count, (x) => mm(x, f(x)));

const sphere = (apex: number, radius: number, x: number, sign = 1) =>
  apex + sign * (radius - Math.sqrt(radius ** 2 - x ** 2));
/** Front (radius 7.8 mm) and back (6.6 mm) of the cornea. */
export const front = (x: number) => sphere(0, 7.8, x);
export const back = (x: number) => sphere(0.55, 6.6, x);
/** In clear cornea just inside the limbus: where instruments come in. */
export const entry = (side: 1 | -1 = 1) => mm(side * 5.25, 2.38);

export type Lens = {
  anterior: (x: number) => number;
  posterior: (x: number) => number;
  rim: (side: 1 | -1) => Point[];
  equator: readonly [x: number, y: number];
  apex: number;
  pole: number;
};

/** The capsular bag: depth and radius of its front, depth and radius of its back, height of its equator, all in mm. */
export function lensOf({
  apex = 3.5,
  radius = 10,
  pole = 8,
  backRadius = 6.2,
  equator = 5.25,
  half = 4.78,
} = {}): Lens {
  const anterior = (x: number) => sphere(apex, radius, x);
  const posterior = (x: number) => sphere(pole, backRadius, x, -1);
  const rim = (side: 1 | -1) =>
    spline(
      [
        mm(side * 4.2, anterior(4.2)),
        mm(side * (half - 0.16), anterior(4.2) + (equator - anterior(4.2)) * 0.5),
        mm(side * half, equator),
        mm(side * (half - 0.16), equator + (posterior(4.2) - equator) * 0.5),
        mm(side * 4.2, posterior(4.2)),
      ],
      4,
    );
  return { anterior, posterior, rim, equator: [half, equator], apex, pole };
}

type Eye = {
  pupil?: number;
  /** Half width of the opening in the capsule, or of its left and right half; 0: whole. */
  open?: number | readonly [left: number, right: number];
  capsule?: boolean;
  vitreous?: boolean;
  /** Iris lower (or higher) than the lens would hold it, in mm. */
  hang?: number;
  iris?: boolean;
};

export function sectionEye(
  lens: Lens,
  { pupil = 3.5, open = 0, capsule = true, vitreous = true, hang = 0, iris = true }: Eye = {},
): Marks {
  const sides = [-1, 1] as const;
  return [
    flat([...run(front, -5.9, 5.9, 24), ...run(back, 5.5, -5.5, 22)]),
    sides.map((side) => [wallOf(side), zonules(lens, side), iris ? irisOf(lens, side, pupil, hang) : []]),
    pen(run(front, -5.95, 5.95, 30), 2.3, { land: 0.04, lift: 0.04 }),
    pen(run(back, -5.6, 5.6, 28), 1.5, { land: 0.04, lift: 0.04 }),
    sides.map((side) =>
      hair([
        run((x) => front(x) + 0.2, side * 5.6, side * 3.4, 6),
        run((x) => front(x) + 0.38, side * 5.35, side * 4.1, 5),
      ]),
    ),
    capsule ? capsuleOf(lens, open) : [],
    vitreous ? vitreousOf(lens) : [],
  ];
}

/** Sclera and ciliary body. */
function wallOf(side: 1 | -1): Marks {
  const q = (x: number, y: number) => mm(side * x, y);
  const outer = spline([q(5.9, 2.72), q(6.4, 3.2), q(6.9, 3.95), q(7.15, 4.6)]);
  const inner = spline([q(5.85, 3.95), q(6.3, 4.35), q(6.55, 4.95), q(6.7, 5.4)]);
  const body = spline(
    [
      q(5.85, 3.98),
      q(5.55, 4.35),
      q(5.3, 4.62),
      q(5.5, 4.78),
      q(5.28, 5.02),
      q(5.55, 5.16),
      q(5.38, 5.42),
      q(5.8, 5.62),
      q(6.35, 5.7),
      q(6.7, 5.42),
    ],
    4,
  );
  return [
    hatch([...outer, ...[...inner].reverse()], side * 62, 4.4),
    pen(outer, 2, { land: 0.02, lift: 0.3 }),
    line(body),
    hatch([...body, ...[...inner].reverse()], side * -30, 3.6),
    line(run(back, side * 5.45, side * 5.75, 3)),
  ];
}

function zonules({ anterior, equator: [half, y] }: Lens, side: 1 | -1): Marks {
  const threads: [number, number, number][] = [
    [4.66, 4.2, anterior(4.2)],
    [4.72, half - 0.28, anterior(4.2) + 0.24],
    [4.98, half - 0.06, y - 0.25],
    [5.04, half, y],
    [5.34, half - 0.04, y + 0.25],
    [5.42, half - 0.23, y + 0.5],
  ];
  return hair(
    threads.map(([y0, x1, y1]) => [mm(side * 5.32, y0), mm(side * x1, y1)]),
    { sharp: true },
  );
}

export function irisOf({ anterior }: Lens, side: 1 | -1, pupil: number, hang = 0): Marks {
  const q = (x: number, y: number) => mm(side * x, y);
  const m = Math.min(anterior(pupil) - 0.2, 4.15) + hang;
  return irisShape(
    [
      q(5.8, 3.86),
      q(5.1, (3.86 + m) / 2 - 0.08),
      q(pupil + 0.25, m - 0.16),
      q(pupil, m),
      q(pupil + 0.25, m + 0.15),
      q(5.1, (4.05 + m) / 2 + 0.1),
      q(5.75, 4.1),
    ],
    side,
  );
}

/** An iris by its outline, from its root along its front to the pupil and back. */
export function irisShape(points: readonly Point[], side: 1 | -1): Marks {
  const shape = spline(points, 5);
  return [area(shape), hatch(shape, side * 78, 3.2), edge(shape, 1.5)];
}

/** The bag in ink; the edge of the opening turns up a little, so that it can be told. */
export function capsuleOf({ anterior, posterior, rim }: Lens, open: Eye['open'] = 0, width = 1.8): Marks {
  return ([-1, 1] as const).map((side) => {
    const edgeAt = typeof open === 'number' ? open : open[side < 0 ? 0 : 1];
    return pen(
      [
        ...(edgeAt ? [mm(side * (edgeAt - 0.1), anterior(edgeAt) - 0.09)] : []),
        ...run(anterior, side * edgeAt, side * 4.2, 8),
        ...rim(side).slice(1),
        ...run(posterior, side * 4.2, 0, 12).slice(1),
      ],
      width,
      { land: edgeAt ? 0.04 : 0.01, lift: 0.01 },
    );
  });
}

function vitreousOf({ posterior }: Lens): Marks {
  const next = chance(4);
  return hair(
    (
      [
        [0.3, 3.9],
        [0.62, 3.2],
        [0.94, 2.2],
      ] as const
    ).flatMap(([below, wide]) =>
      range(-wide, wide - 0.95, Math.floor((2 * wide) / 0.95) - 1, (x) => {
        const a = x + next() * 0.3;
        return run((v) => posterior(v) + below, a, Math.min(wide, a + 0.45 + next() * 0.3), 2);
      }),
    ),
  );
}

/** The nucleus within a lens: its share of the width, and how far it stays from front and back, in mm. */
export function nucleusOf({ equator: [half], apex, pole }: Lens, share = 0.74, top = 0.45, bottom = 0.75): Point[] {
  const [y0, y1] = [apex + top, pole - bottom];
  const middle = (y0 + y1) / 2 - 0.1;
  return range(0, 348, 29, (angle) => {
    const [c, s] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
    return mm(half * share * Math.sign(c) * Math.abs(c) ** 0.9, middle + (s < 0 ? middle - y0 : y1 - middle) * s);
  });
}
