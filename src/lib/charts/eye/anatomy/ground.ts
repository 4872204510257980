import { polar, range } from '../pencil/curves';
import { fibre, hair, pen, type Marks } from '../pencil/marks';
import { add, type Point } from '../pencil/points';

/** The lower part of the eye from above, the surgeon below: px per mm, and the middle of the eye. */
export const LARGE = 26;
const CENTRE: Point = [0, -108];
export const spot = (mm: number, angle: number) => add(CENTRE, polar(mm * LARGE, angle));
export const bow = (mm: number, a: number, b: number) => range(a, b, 24, (angle) => spot(mm, angle));
export const frown = (half: number) =>
  range(-half, half, 24, (x): Point => [x * LARGE, 108 - 20 * (1 - (x / 3.3) ** 2)]);

export const field = (a: number, b: number): Marks => [
  pen(bow(5.9, 112, 248), 2.2, { land: 0.03, lift: 0.03 }),
  fibre(range(120, 240, 45, (angle) => [spot(3.3, angle), spot(4.4 + ((angle * 7) % 5) * 0.18, angle)])),
  pen(bow(3, 112, 248), 1.5),
  hair(bow(6.12, a, b)),
];
/** Conjunctiva beside the bare sclera, by the edge it was cut along. */
export const conjunctiva = (from: number, to: number): Marks =>
  fibre(
    range(from, to, Math.round(Math.abs(to - from) / 2), (a) => [
      spot(6.2 + ((a * 3) % 4) * 0.2, a),
      spot(7.4 + ((a * 7) % 5) * 0.3, a + 3),
    ]),
  );
