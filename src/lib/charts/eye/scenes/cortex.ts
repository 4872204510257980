import { at, MAIN, OPENING, ringOf, round, sector, topEye } from '../anatomy/top';
import { sleeved } from '../instruments/top';
import { chance } from '../pencil/chance';
import { range, spline } from '../pencil/curves';
import { area, arrow, edge, fibre, hair, hatch, keepOut, note, strong, type Marks } from '../pencil/marks';
import { add, type Point } from '../pencil/points';
import { topScene, type Scene } from '../scene';

/** Cortex seen through the rim, as fine fibres between two angles. */
export function cortexFibres(a: number, b: number): Marks {
  const next = chance(8);
  return fibre(
    range(a, b, Math.round((b - a) / 4), (angle): Point[] => {
      const lean = angle + (next() - 0.5) * 3;
      return [at(OPENING - 0.25 * next(), angle), at(3.1, lean + 1), at(3.42, lean)];
    }),
  );
}

export const cortexScenes: readonly Scene[] = [
  topScene(
    'cortex-strip',
    'Along the curve, towards the middle',
    'The eye from above. The tip, its opening in view, took a strip of cortex at its free end just under the rim. It has drawn the strip along the curve of the rim and now brings it to the middle. The sectors still to do are shown with fine lines. The sector under the main wound is hatched: it has its own turn, at the same point in every case.',
    () => {
      const tip = at(0.95, 236);
      const strip = [
        ...spline([at(3.42, 324), at(2.72, 316), at(2.12, 300), at(1.72, 276), at(1.3, 252), add(tip, [3, -6])], 5),
        ...spline([add(tip, [-5, 3]), at(1.6, 250), at(2.1, 268), at(2.5, 284), at(2.9, 293), at(3.42, 296)], 5),
      ];
      return [
        topEye({ iris: 112 }),
        cortexFibres(336, 462),
        keepOut(sector(2.7, 3.42, 104, 166), 60, 4.4),
        area(strip),
        hatch(strip, 110, 4),
        edge(strip, 1.5),
        ringOf(OPENING, 2.2),
        hair(round(OPENING - 0.12, 330, 300)),
        sleeved(tip, MAIN, 'round'),
        arrow(spline([at(2.42, 276), at(2.3, 260), at(2.07, 243), at(1.75, 228)]), { width: 3, head: 11 }),
        note('tl', ['strip taken', 'under the rim'], at(3.1, 310)),
        strong(note('bl', ['along the curve,', 'then to the middle'], at(2.12, 243))),
        note('tr', 'still to do', at(3.05, 40)),
        note('br', ['in its', 'own turn'], at(3.2, 109)),
      ];
    },
  ),
];
