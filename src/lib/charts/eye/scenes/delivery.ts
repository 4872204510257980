import { back, lensOf, mm, run, sectionEye } from '../anatomy/section';
import { bent } from '../instruments/section';
import { ellipse } from '../pencil/curves';
import { area, hatch, note, outline, strong, viscoelastic } from '../pencil/marks';
import { sectionScene, type Scene } from '../scene';

export const deliveryScenes: readonly Scene[] = [
  sectionScene(
    'delivery-tool-behind',
    'Wholly behind the nucleus, the iris free',
    'Cross-section. The nucleus lies in the chamber. The lens loop has come in through the tunnel on the {right}, passes under the nucleus and lies wholly behind it, over the iris, whose edge is free on both sides. Viscoelastic, drawn as dots, lies in front of the nucleus and behind the loop.',
    () => {
      const lens = lensOf({ apex: 4.6, radius: 24, pole: 6.9, backRadius: 9, equator: 5.4 });
      const nucleus = ellipse(mm(-0.1, 2.62), 66, 23);
      return [
        viscoelastic(
          [
            ...run(back, -4.4, 4.4, 18),
            ...run((x) => 2.55 - 1.05 * Math.sqrt(Math.max(0, 1 - (x / 3.1) ** 2)), 3.1, -3.1, 18),
          ],
          5.4,
        ),
        viscoelastic([mm(-3.2, 4.25), mm(3.0, 4.25), mm(2.6, 4.6), mm(0, 4.8), mm(-2.6, 4.6)], 4.8, true),
        sectionEye(lens, { open: 3.2, pupil: 3.7 }),
        area(nucleus),
        hatch(nucleus, 8, 5.4),
        outline(nucleus, 2),
        bent([mm(7.4, 2.5), mm(5.5, 3.2), mm(3.2, 3.85), mm(0.5, 3.98), mm(-2.6, 3.86), mm(-3.35, 3.5)], 5),
        note('tl', ['OVD in front', 'and behind'], mm(-2.9, 1.7)),
        strong(note('bl', 'wholly behind', mm(-1.6, 4.0))),
        note('br', 'iris free', mm(3.85, 4.25)),
      ];
    },
  ),
];
