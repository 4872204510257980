import { at, MAIN, OPENING, ringOf, topEye } from '../anatomy/top';
import { entry, lensOf, mm, run, sectionEye } from '../anatomy/section';
import { aspirationTip } from '../instruments/section';
import { sleeved } from '../instruments/top';
import { spline } from '../pencil/curves';
import { area, dot, edge, hatch, line, note, outline, pen, strong, wrongWay } from '../pencil/marks';
import { add } from '../pencil/points';
import { sectionScene, topScene, type Scene } from '../scene';
import { cortexFibres } from './cortex';

export const cortexHoldScenes: readonly Scene[] = [
  sectionScene(
    'cortex-under-rim',
    'Just under the rim, at the free end of the cortex',
    'Cross-section. The aspiration tip has come in from the {right}, over the iris, and lies just under the rim of the opening on the {left}, its opening turned forwards. There it meets the free end of the cortex, which lines the bag round the equator. A tip in the middle of the bag, dashed, would meet the posterior capsule.',
    () => {
      const lens = lensOf({ apex: 3.75, radius: 16, pole: 7.3, backRadius: 7 });
      const cortex = [
        ...run((x) => lens.anterior(x) + 0.12, -3.05, -4.1, 5),
        mm(-4.55, 5.05),
        mm(-4.5, 5.5),
        ...run((x) => lens.posterior(x) - 0.12, -4.05, -1.6, 10),
        ...run((x) => lens.posterior(x) - 0.42, -1.9, -3.6, 8),
        mm(-4.15, 5.3),
        ...run((x) => lens.anterior(x) + 0.5, -3.9, -3.1, 4),
      ];
      return [
        sectionEye(lens, { open: 2.6 }),
        area(cortex),
        hatch(cortex, 12, 4),
        outline(cortex, 1.4),
        aspirationTip(mm(-2.75, 4.42), entry(), 1),
        dot(mm(-3.1, 4.42), 4.4),
        wrongWay([mm(0.9, 4.6), mm(0.7, 5.6), mm(0.5, 6.75)]),
        strong(note('tl', ['just under the rim,', 'at the free end'], mm(-3.1, 4.35))),
        note('bl', 'cortex', mm(-3.9, 5.95)),
        note('br', ['in the middle:', 'the capsule'], mm(0.62, 6.3)),
      ];
    },
  ),

  topScene(
    'cortex-wait',
    'Filled first, and only then moved',
    'The eye from above. The tip lies still just under the rim. A strip of cortex has come to it and fills its opening, which is marked. The dotted line shows where the tip will go once it is filled; it has not moved yet.',
    () => {
      const tip = at(2.35, 306);
      const strip = [
        ...spline([at(3.42, 296), at(2.95, 300), add(tip, [-6, -2])], 6),
        ...spline([add(tip, [4, -7]), at(2.95, 314), at(3.42, 320)], 6),
      ];
      return [
        topEye({ iris: 112 }),
        cortexFibres(322, 456),
        area(strip),
        hatch(strip, 118, 3.4),
        edge(strip, 1.5),
        ringOf(OPENING, 2.2),
        sleeved(tip, MAIN, 'round'),
        dot(add(tip, [0, 0]), 6.4, 'mark'),
        line(spline([at(1.9, 292), at(1.75, 270), at(1.3, 245), at(0.6, 235)], 6), { dash: 'dot' }),
        strong(note('tl', ['filled,', 'the tip still'], at(2.45, 304))),
        note('bl', ['only then', 'the move'], at(1.6, 260)),
        pen([at(3.42, 298), at(3.42, 318)], 1.4),
        note('tr', ['cortex under', 'the rim'], at(3.1, 20)),
      ];
    },
  ),
];
