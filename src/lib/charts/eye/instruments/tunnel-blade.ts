import { itemAt } from '../../../item-at';
import { edge, flat, type Marks } from '../pencil/marks';
import { from, sub, unit, type Point } from '../pencil/points';

/** The handle of an angled blade in section: from its heel to where the hand holds it. @param width px at the heel */
export function handle(heel: Point, end: Point, width = 12): Marks {
  const u = unit(sub(end, heel));
  const far = Math.hypot(...sub(end, heel));
  const h = width / 2;
  const shape = [from(heel, u, 0, h), from(heel, u, far, h + 1.5), from(heel, u, far, -h - 1.5), from(heel, u, 0, -h)];
  return [
    flat(shape),
    edge([itemAt(shape, 0), itemAt(shape, 1)], 1.6),
    edge([itemAt(shape, 3), itemAt(shape, 2)], 1.6),
  ];
}

/** A flat blade seen from its edge, by its upper and lower side from heel to tip. */
export const bladeOf = (upper: readonly Point[], tip: Point, lower: readonly Point[]): Marks => {
  const shape = [...upper, tip, ...[...lower].reverse()];
  return [flat(shape), edge(shape, 1.6)];
};
