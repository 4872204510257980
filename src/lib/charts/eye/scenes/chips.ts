import { itemAt } from '../../../item-at';
import { entry, lensOf, mm, run, sectionEye } from '../anatomy/section';
import { aspirationTip } from '../instruments/section';
import { loop, spline } from '../pencil/curves';
import { area, arrow, hatch, line, note, outline, pen, strong } from '../pencil/marks';
import type { Point } from '../pencil/points';
import { sectionScene, type Scene } from '../scene';

export const chipScenes: readonly Scene[] = [
  sectionScene(
    'segment-epinucleus',
    'Rim first, then rolled over',
    'Cross-section. The bowl of epinucleus lies in the bag. The tip, its opening forwards, holds the bowl by its rim on the far side, and the arrow shows the bowl drawn to the middle and rolled over. Nothing is taken from the middle of the bowl, which lies on the capsule.',
    () => {
      const lens = lensOf({ apex: 3.75, radius: 16, pole: 7.3, backRadius: 7 });
      const bowl = [
        ...spline([mm(-2.55, 4.25), mm(-3.3, 4.5), mm(-4.05, 5.05), mm(-3.4, 5.9)], 5),
        ...run((x) => lens.posterior(x) - 0.14, -3, 3.4, 14),
        ...spline([mm(4.1, 5.2), mm(3.9, 4.9), mm(3.5, 5.35)], 5),
        ...run((x) => lens.posterior(x) - 0.62, 2.8, -2.7, 14),
        ...spline([mm(-3.3, 5.3), mm(-3.1, 4.95), mm(-2.5, 4.65)], 5),
      ];
      return [
        sectionEye(lens, { open: 2.6 }),
        area(bowl),
        hatch(bowl, 12, 4.6),
        line([...bowl, itemAt(bowl, 0)]),
        aspirationTip(mm(-2.45, 4.35), entry(), 1),
        arrow(spline([mm(-2.1, 5.55), mm(-1.2, 5.75), mm(-0.2, 5.3), mm(0.2, 4.6)]), { width: 3, head: 11 }),
        note('tl', ['held by', 'its rim'], mm(-2.6, 4.3)),
        strong(note('bl', 'rolled over', mm(-0.9, 5.7))),
        note('br', ['the middle lies', 'on the capsule'], mm(0.9, 6.9)),
      ];
    },
  ),

  sectionScene(
    'segment-chip-search',
    'Looked for in three places',
    'Cross-section after the nucleus has gone. Three small chips are marked: one in the angle of the chamber, one in the inner mouth of the wound on the {right}, one behind the iris. No instrument goes after them.',
    () => {
      const lens = lensOf({ apex: 3.85, radius: 18, pole: 7.0, backRadius: 7.4 });
      const chip = ([x, y]: Point): Point[] =>
        loop(
          [
            [x - 5, y + 1],
            [x - 1, y - 4],
            [x + 5, y - 2],
            [x + 3, y + 4],
          ],
          4,
        );
      const places = [mm(-5.05, 3.42), mm(4.8, 2.75), mm(4.15, 4.46)];
      return [
        sectionEye(lens, { open: 2.6 }),
        pen([mm(5.75, 2.55), mm(5.2, 2.3), mm(4.55, 2.42)], 1.6),
        places.map((p) => [area(chip(p)), hatch(chip(p), 20, 3), outline(chip(p), 1.8, true)]),
        note('tl', 'in the angle', itemAt(places, 0)),
        note('tr', 'in the wound', itemAt(places, 1)),
        note('br', 'behind the iris', itemAt(places, 2)),
        strong(note('bl', 'look in three places')),
      ];
    },
  ),
];
