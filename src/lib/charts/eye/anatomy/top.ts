import { itemAt } from '../../../item-at';
import { chance } from '../pencil/chance';
import { arcOf, polar, range } from '../pencil/curves';
import { area, edge, fibre, flat, hair, line, outline, pen, type Marks } from '../pencil/marks';
import { across, add, sub, times, unit, type Point } from '../pencil/points';
import type { Frame } from '../pencil/labels';

/**
 * The eye from above, as in the recording: the surgeon's seat at the lower edge (the bar), angles clockwise from twelve
 * o'clock of the picture, an adult eye in millimetres: limbus 11.8, pupil 7, opening 5.2, optic 6 across.
 */
const PER_MM = 20;
export const TOP: Frame = [-160, -160, 320, 320];
export const TOP_CLOSE: Frame = [-127, -127, 254, 254];
/** Where the wounds are: three clock hours apart, for the right hand. */
export const MAIN = 135;
export const PORT = 225;
/** The side port beside a scleral tunnel, which lies before the seat. */
export const TUNNEL = 180;
export const TUNNEL_PORT = 268;
export const LIMBUS = 5.9;
export const OPENING = 2.6;

export const at = (mm: number, angle: number): Point => polar(mm * PER_MM, angle);
export const round = (mm: number, a = 0, b = 360): Point[] => arcOf(mm * PER_MM, a, b);
export const ringOf = (mm: number, width: number, accent = false) => outline(round(mm).slice(0, -1), width, accent);
/** Between two radii and two angles. */
export const sector = (inner: number, outer: number, a: number, b: number): Point[] => [
  ...round(outer, a, b),
  ...round(inner, b, a),
];
/** The whole ring between two radii, even-odd. */
export const annulus = (inner: number, outer: number): Point[][] => [
  round(outer).slice(0, -1),
  round(inner).slice(0, -1),
];

type Eye = {
  pupil?: number;
  /** Number of fibres; none where a tone has to be read on the iris. */
  iris?: number;
  wounds?: 'clear' | 'port' | 'tunnel' | 'none';
};

export function topEye({ pupil = 3.5, iris = 112, wounds = 'clear' }: Eye = {}): Marks {
  return [
    ringOf(LIMBUS, 2.1),
    limbalTicks(),
    iris ? fibres(pupil, iris) : [],
    ringOf(pupil, 1.5),
    hair(round(pupil + 0.13)),
    wounds === 'clear' ? [wound(MAIN, 2.4), wound(PORT, 1.1, 1.1)] : [],
    wounds === 'port' ? wound(PORT, 1.1, 1.1) : [],
    wounds === 'tunnel' ? [tunnelWound(), wound(TUNNEL_PORT, 1.1, 1.1)] : [],
    seat(),
  ];
}

/** The surgeon's seat, and the clock face by which places are told. */
function seat(): Marks {
  const hours = range(0, 330, 11, (a) => [at(6.5, a), at(a % 90 ? 6.72 : 6.9, a)]);
  return [pen(round(7.35, 172, 188), 3.4, { land: 0.2, lift: 0.2 }), line(hours, { sharp: true })];
}

/** The edge of the conjunctiva: short fine strokes on the side away from the light. */
function limbalTicks(): Marks {
  const next = chance(31);
  return fibre(
    range(64, 226, 108, (a) => {
      const shade = Math.sin(((a - 64) / 162) * Math.PI);
      return [at(5.99, a), at(6.04 + 0.26 * shade * (0.5 + next()), a + (next() - 0.5) * 0.8)];
    }),
    { sharp: true },
  );
}

/** Fibres of the iris: long ones from its root, short ones from the pupil, meeting about the collarette. */
export function fibres(pupil: number, count: number): Marks {
  const next = chance(11);
  const room = 5.78 - pupil;
  const strand = (a: number, inner: number, outer: number): Point[] => {
    const lean = (next() - 0.5) * 3;
    return [
      at(inner, a + lean),
      at(inner + (outer - inner) * 0.35, a + lean * 0.5 + (next() - 0.5) * 1.1),
      at(inner + (outer - inner) * 0.7, a + (next() - 0.5) * 1.2),
      at(outer, a),
    ];
  };
  const each = (n: number, ends: () => [number, number]) =>
    range(0, 360 - 360 / n, n - 1, (a) => strand(a + (next() * 200) / n, ...ends()));
  return fibre([
    ...each(count, () => [pupil + room * (0.3 + 0.32 * next() ** 2), pupil + room * (0.86 + 0.13 * next())]),
    ...each(Math.round(count * 0.75), () => [pupil + 0.2 + room * 0.04 * next(), pupil + room * (0.2 + 0.14 * next())]),
  ]);
}

/** A wound in clear cornea: outer edge on the limbus, inner lip a straight chord. @param width, deep in mm */
export function wound(angle: number, width: number, deep = 1.9): Marks {
  const half = (width / 2 / LIMBUS) * (180 / Math.PI);
  const u = unit(polar(1, angle));
  const outer = round(5.95, angle - half, angle + half);
  const lip = times(u, (5.92 - deep) * PER_MM);
  const side = times(across(u), width * 0.485 * PER_MM);
  const inner: [Point, Point] = [add(lip, side), sub(lip, side)];
  return [
    flat([...outer, inner[0], inner[1]]),
    edge(outer, 2.8),
    line(inner, { sharp: true }),
    hair(
      [
        [itemAt(outer, 0), inner[1]],
        [itemAt(outer, outer.length - 1), inner[0]],
      ],
      { sharp: true },
    ),
  ];
}

/** A scleral tunnel before the seat: frown-shaped groove behind the limbus, inner lip in clear cornea, wider inside. */
export function tunnelWound(): Marks {
  const groove = range(-3.3, 3.3, 16, (x): Point => [x * PER_MM, (7.05 - 0.62 * (1 - (x / 3.3) ** 2) + 0.25) * PER_MM]);
  const inner = round(4.75, 222, 138);
  return [
    area([...groove, ...[...inner].reverse()]),
    ringOfPart(LIMBUS, 138, 222),
    hair([itemAt(groove, 0), at(5.9, 218), at(4.75, 222)]),
    hair([itemAt(groove, groove.length - 1), at(5.9, 142), at(4.75, 138)]),
    line(inner),
    pen(groove, 2.8, { land: 0.08, lift: 0.08 }),
  ];
}
const ringOfPart = (mm: number, a: number, b: number) => pen(round(mm, a, b), 1.2, { land: 0.02, lift: 0.02 });
