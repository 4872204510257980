import { itemAt } from '../../../item-at';
import { across, add, size, sub, times, unit, type Point } from '../pencil/points';
import { area, hatch, pen, type Marks } from '../pencil/marks';

/** The flap of a torn edge, folded over along the line from the start of the tear to its point, inner side up. */
export function foldedFlap(edge: readonly Point[]): Marks {
  const start = itemAt(edge, 0);
  const end = itemAt(edge, edge.length - 1);
  const u = unit(sub(end, start));
  const n = across(u);
  const wide = size(sub(end, start));
  const turnedOver = edge.map((p): Point => {
    const v = sub(p, start);
    const x = v[0] * u[0] + v[1] * u[1];
    const y = v[0] * n[0] + v[1] * n[1];
    const share = Math.min(1, Math.max(0, x / wide));
    return add(add(start, times(u, x * 0.97 + 2)), times(n, -y * (0.34 + 0.3 * Math.sin(Math.PI * share))));
  });
  return [
    area([...turnedOver, end, start]),
    hatch([...turnedOver, end, start], 66, 5),
    pen(turnedOver, 1.6, { land: 0.05, lift: 0.05 }),
    pen([start, end], 1.4, { land: 0.05, lift: 0.05 }),
  ];
}
