import { spline } from '../pencil/curves';
import { edge, flat, hair, type Marks } from '../pencil/marks';
import { from, sub, unit, type Point } from '../pencil/points';
import { bentRod } from './top';

/** Instruments in section: from a tip through the place where they come in and on out. Widths in px. */
const OUTSIDE = 62;

/** A straight rod: cannula (7) or needle (17). `square`: cut off, as a needle is. */
export function probe(tip: Point, via: Point, width = 7, { square = false, out = OUTSIDE } = {}): Marks {
  const u = unit(sub(via, tip));
  const far = Math.hypot(...sub(via, tip)) + out;
  const h = width / 2;
  const end = square
    ? [from(tip, u, -h * 0.5, h), from(tip, u, h * 0.5, -h)]
    : spline([from(tip, u, 0, h), from(tip, u, -width * 0.4), from(tip, u, 0, -h)], 4);
  const shape = [from(tip, u, far, h), ...end, from(tip, u, far, -h)];
  return [flat(shape), edge(shape, 1.6)];
}

/** A phaco needle with its sleeve, its bevel at the tip; the sleeve begins `bare` px behind it. */
export function phacoTip(tip: Point, via: Point, bare = 34): Marks {
  const u = unit(sub(via, tip));
  const far = Math.hypot(...sub(via, tip)) + OUTSIDE;
  const p = (along: number, aside: number) => from(tip, u, along, aside);
  const needle = [p(bare + 6, 8), p(-5, 8), p(6, -8), p(bare + 6, -8)];
  const sleeve = [p(far, 14), p(bare + 4, 12), p(bare, 8), p(bare, -8), p(bare + 4, -12), p(far, -14)];
  return [
    flat(needle),
    edge(needle, 1.6),
    hair([p(-1, 5), p(4, -4)], { sharp: true }),
    flat(sleeve),
    edge(sleeve, 1.6),
    hair(
      [
        [p(bare + 14, 6), p(bare + 30, 6)],
        [p(bare + 18, 2), p(bare + 28, 2)],
      ],
      { sharp: true },
    ),
  ];
}

/** An aspiration tip, round, its port on the side given (1: right of the way out, -1: left), a little behind the end. */
export function aspirationTip(tip: Point, via: Point, side: 1 | -1, width = 13): Marks {
  const u = unit(sub(via, tip));
  const p = (along: number, aside: number) => from(tip, u, along, aside * side);
  const h = width / 2;
  return [probe(tip, via, width), flat([p(3, h + 0.4), p(10, h + 0.4), p(8.6, h - 4), p(4.4, h - 4)], 'ink')];
}

/** A thin rod bent along a course: cannula, spatula, chopper. The first point lies outside the eye. */
export const bent = (points: readonly Point[], width = 6): Marks => bentRod(points, width);
