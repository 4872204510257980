import { GROOVE, layer, place, THICK } from '../anatomy/wall';
import { flat, pen, type Marks } from '../pencil/marks';

export const HALF = THICK * 0.48;
export type Depth = (q: number) => number;

/** A groove cut to a depth in mm, open to the surface. */
export const groove = (depth: number): Marks => [
  flat([place(GROOVE, -0.06), place(GROOVE + 0.06, depth), place(GROOVE - 0.16, depth), place(GROOVE - 0.3, -0.06)]),
  pen([place(GROOVE, 0), place(GROOVE + 0.05, depth)], 2),
  pen([place(GROOVE - 0.28, 0), place(GROOVE - 0.14, depth)], 1.6),
];
/** A plane already cut, as a thin open gap. */
export const plane = (depth: Depth, to: number): Marks => [
  flat([...layer((q) => depth(q) - 0.03, GROOVE, to, 16), ...layer((q) => depth(q) + 0.03, to, GROOVE - 0.14, 16)]),
  pen(
    layer((q) => depth(q) - 0.03, GROOVE, to, 16),
    1.4,
  ),
  pen(
    layer((q) => depth(q) + 0.03, GROOVE - 0.12, to, 16),
    1.4,
  ),
];
