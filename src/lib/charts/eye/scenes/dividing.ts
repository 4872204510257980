import { itemAt } from '../../../item-at';
import { entry, lensOf, mm, nucleusOf, run, sectionEye } from '../anatomy/section';
import { bent, phacoTip } from '../instruments/section';
import { spline } from '../pencil/curves';
import { area, arrow, bracket, dot, hatch, line, note, pen, strong } from '../pencil/marks';
import { add, type Point } from '../pencil/points';
import { sectionScene, type Scene } from '../scene';

const lens = lensOf({ apex: 3.5, radius: 11 });
const nucleus = nucleusOf(lens, 0.8, 0.3, 0.5);
const whole = () => [area(nucleus), hatch(nucleus, 8, 5.4), line([...nucleus, itemAt(nucleus, 0)])];
const outside = (side: 1 | -1): Point => add(entry(side), [side * 56, -25]);

export const dividingScenes: readonly Scene[] = [
  sectionScene(
    'disassembly-hold',
    'Held first, then the chop',
    'Cross-section. The phaco tip has come in from the {right}, over the rim, and is buried deep in the nucleus, which it holds; the buried length is marked. The chopper waits above the lens and has not moved yet.',
    () => [
      sectionEye(lens, { open: 2.6 }),
      whole(),
      phacoTip(mm(-0.55, 5.35), mm(4.95, 2.0), 74),
      bracket(mm(-0.85, 4.75), mm(1.75, 3.15), true),
      bent([outside(-1), entry(-1), mm(-3.4, 2.8), mm(-2.0, 3.05), mm(-1.75, 3.35)], 5),
      note('tl', ['the chopper', 'waits'], mm(-2.6, 2.92)),
      strong(note('bl', ['buried and', 'held first'], mm(-0.75, 5.45))),
      note('br', ['over the rim'], mm(2.7, 3.6)),
    ],
  ),

  sectionScene(
    'disassembly-second-hand',
    'Under the rim, not over it',
    'Cross-section. The chopper has come in from the {left}, passed through the opening and under the rim on that side, and lies round the equator of the nucleus inside the bag. The place where it passes under the rim is marked. The phaco tip holds the nucleus.',
    () => {
      const chopper: Point[] = [
        outside(-1),
        entry(-1),
        mm(-3.1, 2.75),
        mm(-1.95, 3.3),
        mm(-2.25, 3.78),
        mm(-3.3, 4.18),
        mm(-4.05, 4.75),
        mm(-4.02, 5.5),
      ];
      return [
        sectionEye(lens, { open: 2.5 }),
        whole(),
        phacoTip(mm(0.2, 5.05), mm(4.95, 2.0), 56),
        bent(chopper, 4.6),
        pen([mm(-2.4, 3.69), ...run((x) => lens.anterior(x), -2.5, -4.1, 8)], 2.4, { land: 0.04, lift: 0.04 }),
        dot(mm(-2.42, 3.67), 4.4),
        strong(note('tl', ['under the rim,', 'not over it'], mm(-2.5, 3.55))),
        note('bl', ['round the equator,', 'inside the bag'], mm(-4.02, 5.5)),
        note('br', 'nucleus held', mm(0.6, 5.4)),
      ];
    },
  ),

  sectionScene(
    'disassembly-crack-through',
    'Parted right through to the back',
    'Cross-section across the groove. Two instruments lie deep in the groove and push sideways, apart. The two halves of the nucleus have come apart down to the back, and through the gap the posterior capsule is seen.',
    () => {
      const half = (k: 1 | -1): Point[] => {
        const q = (x: number, y: number) => mm(k * x, y);
        return [
          ...spline(
            [q(0.95, 3.95), q(2.4, 3.9), q(3.6, 4.45), q(4.15, 5.25), q(3.5, 6.3), q(2.1, 7.1), q(0.62, 7.35)],
            5,
          ),
          q(0.5, 7.2),
          q(0.72, 6.1),
          q(1.0, 5.9),
        ];
      };
      const sides = [-1, 1] as const;
      const blade = (k: 1 | -1): Point[] => [
        add(entry(k), [k * 56, -25]),
        entry(k),
        mm(k * 2.4, 2.85),
        mm(k * 0.75, 3.6),
        mm(k * 0.72, 5.5),
      ];
      return [
        sectionEye(lens, { open: 2.7 }),
        sides.map((k) => [area(half(k)), hatch(half(k), k * 10, 5.4), line([...half(k), itemAt(half(k), 0)])]),
        sides.map((k) => bent(blade(k), 5.4)),
        sides.map((k) =>
          arrow([mm(k * 1.25, 5.3), mm(k * 1.9, 5.3), mm(k * 2.7, 5.3)], { accent: false, width: 2.8, head: 10 }),
        ),
        pen(
          run((x) => lens.posterior(x), -0.75, 0.75, 8),
          3.4,
          { land: 0.2, lift: 0.2, accent: true },
        ),
        note('tl', ['both deep,', 'pushed apart'], mm(-0.9, 4.4)),
        strong(note('bl', ['capsule seen', 'in the gap'], mm(-0.3, 7.95))),
      ];
    },
  ),
];
