import { itemAt } from '../../../item-at';
import { beside, evenly, spline } from '../pencil/curves';
import { area, edge, flat, hair, line, pen, type Marks } from '../pencil/marks';
import { from, size, sub, times, unit, across, add, type Point } from '../pencil/points';
import { at } from '../anatomy/top';

/** Instruments from above: from a tip through a wound and out of the picture. Widths in mm. */
const OUT = 166;
const PX = 20;

/** The way from a tip through the wound at an angle: direction, and how far until it leaves the picture. */
export function way(tip: Point, angle: number, through = 5.7): { u: Point; far: number } {
  const u = unit(sub(at(through, angle), tip));
  let far = 0;
  while (size(from(tip, u, far)) < OUT) far += 2;
  return { u, far };
}

/** A plain rod with a round end: cannula, spatula. @param w mm, w1 mm where it leaves the picture */
export function rod(tip: Point, angle: number, w = 0.45, w1 = w): Marks {
  const { u, far } = way(tip, angle);
  const [h, h1] = [(w * PX) / 2, (w1 * PX) / 2];
  const end = [
    from(tip, u, 0, h),
    from(tip, u, -h * 0.8, h * 0.45),
    from(tip, u, -h * 0.8, -h * 0.45),
    from(tip, u, 0, -h),
  ];
  const shape = [from(tip, u, far, h1), ...spline(end, 4), from(tip, u, far, -h1)];
  return [flat(shape), edge(shape, 1.5)];
}

/** A cannula bent along a course, first point outside. @param w px */
export function bentRod(points: readonly Point[], w = 7): Marks {
  const middle = evenly(spline(points, 8), 5);
  const end = itemAt(middle, middle.length - 1);
  const u = unit(sub(end, itemAt(middle, middle.length - 2)));
  const shape = [...beside(middle, -w / 2), from(end, u, w * 0.4), ...beside(middle, w / 2).reverse()];
  return [flat(shape), edge(shape, 1.5)];
}

/** Fine forceps, closed on something at the tip. */
export function forceps(tip: Point, angle: number): Marks {
  const { u, far } = way(tip, angle);
  const jaw = (k: 1 | -1) =>
    spline([tip, from(tip, u, far * 0.2, k * 4.2), from(tip, u, far * 0.5, k * 5), from(tip, u, far, k * 8)]);
  return [
    flat([...jaw(1), ...jaw(-1).reverse()]),
    [jaw(1), jaw(-1)].map((each) => pen(each, 1.9, { land: 0.05, lift: 0.02 })),
    ([1, -1] as const).map((k) => pen([from(tip, u, -3, k * 2.2), from(tip, u, 5)], 1.9)),
  ];
}

/** A hook or chopper: a shaft with a short bent end. @param bend 1: to the right as seen from outside, -1: to the left */
export function hook(tip: Point, angle: number, bend: 1 | -1 = 1): Marks {
  const { u, far } = way(tip, angle);
  const shaft = [from(tip, u, far, 4.2), from(tip, u, 6, 2.4), from(tip, u, 6, -2.4), from(tip, u, far, -4.2)];
  const end = spline([from(tip, u, -1, bend * 9), from(tip, u, -4, bend * 4), tip, from(tip, u, 12)], 5);
  return [
    flat(shaft),
    edge([itemAt(shaft, 0), itemAt(shaft, 1)], 1.3),
    edge([itemAt(shaft, 3), itemAt(shaft, 2)], 1.3),
    pen(end, 3.2, { land: 0.3, lift: 0.05 }),
  ];
}

/** A needle with its sleeve. `bevel`: phaco, its opening turned up; `round`: aspiration, its port turned up. */
export function sleeved(tip: Point, angle: number, port: 'bevel' | 'round' = 'bevel'): Marks {
  const { u, far } = way(tip, angle);
  const p = (along: number, aside: number) => from(tip, u, along, aside);
  const needle: Marks =
    port === 'bevel'
      ? [
          flat([p(-7, 8.5), p(8, -8.5), p(30, -8.5), p(30, 8.5)]),
          pen([p(30, 8.5), p(-7, 8.5)], 1.5),
          pen([p(30, -8.5), p(8, -8.5)], 1.5),
          area(spline([p(-7, 8.5), p(-4, 1), p(8, -8.5), p(5, 0.5), p(-7, 8.5)], 5), 'ink'),
          edge(spline([p(-7, 8.5), p(-4, 1), p(8, -8.5), p(5, 0.5), p(-7, 8.5)], 5), 1.3),
        ]
      : [
          flat(spline([p(30, 8), p(1, 8), p(-6, 3.5), p(-6, -3.5), p(1, -8), p(30, -8)], 4)),
          edge(spline([p(30, 8), p(1, 8), p(-6, 3.5), p(-6, -3.5), p(1, -8), p(30, -8)], 4), 1.5),
        ];
  const sleeve = [p(far, 16), p(29, 13.5), p(24, 0), p(29, -13.5), p(far, -16)];
  return [
    needle,
    flat([itemAt(sleeve, 0), ...spline(sleeve.slice(1, 4), 5), itemAt(sleeve, 4)]),
    edge([itemAt(sleeve, 0), ...spline(sleeve.slice(1, 4), 5), itemAt(sleeve, 4)], 1.7),
    hair(
      [
        [p(38, 8), p(52, 8)],
        [p(42, 5), p(50, 5)],
      ],
      { sharp: true },
    ),
    port === 'round' ? [area([p(3, 4), p(7, 0), p(3, -4), p(-1, 0)], 'ink')] : [],
  ];
}

/** The nozzle of a lens injector through a wound; its mouth `inner` mm from the middle of the eye. */
export function nozzle(angle: number, inner: number): Marks {
  const u = unit(at(1, angle));
  const p = (along: number, aside: number): Point => add(times(u, along * PX), times(across(u), aside * PX));
  const mouth = spline([p(inner, 0.78), p(inner + 0.12, 0), p(inner + 0.6, -0.78)], 5);
  return [
    flat([...mouth, p(8.3, -1), p(8.3, 1)]),
    edge([p(8.3, 1), ...mouth, p(8.3, -1)], 1.7),
    line(spline([p(inner, 0.78), p(inner + 0.62, 0.2), p(inner + 0.6, -0.78)], 5)),
  ];
}
