import { mm } from '../anatomy/section';
import { range, spline } from '../pencil/curves';
import { area, outline, pen, type Marks } from '../pencil/marks';
import { RADIANS, type Point } from '../pencil/points';

/** An implant in section, in mm: depth and place of its middle, and its tilt (degrees, right side up). */
export type ImplantSection = { y: number; x?: number; tilt?: number };

const on = ({ y, x = 0, tilt = 0 }: ImplantSection, along: number, across: number): Point =>
  mm(along + x, y + across - along * Math.tan(tilt * RADIANS));

/** Depth of the back surface of the optic at x, in mm. */
export const opticEdge = ({ y, x: middle = 0, tilt = 0 }: ImplantSection, x: number): number =>
  y + 0.36 - 0.026 * (x - middle) ** 2 - (x - middle) * Math.tan(tilt * RADIANS);

/** Optic 6 mm, with a haptic on each of the sides given, reaching to the equator of the bag. */
export function implantSection(place: ImplantSection, haptics: readonly (1 | -1)[] = [-1, 1]): Marks {
  const optic = [
    ...range(-3, 3, 12, (x) => on(place, x, -0.36 + 0.026 * x * x)),
    ...range(3, -3, 12, (x) => on(place, x, 0.36 - 0.026 * x * x)),
  ];
  const root = (side: 1 | -1) => on(place, side * 3, 0);
  const reach = (side: 1 | -1) => {
    const [x, y] = root(side);
    const end = mm(side * 4.62, 5.04);
    return spline([[x, y], [x + (end[0] - x) * 0.5, (y + end[1]) / 2 - 1], mm(side * 4.35, 5), end], 5);
  };
  return [area(optic), outline(optic, 1.8), haptics.map((side) => pen(reach(side), 2.3, { land: 0.05, lift: 0.1 }))];
}
