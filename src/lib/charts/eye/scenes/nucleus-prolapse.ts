import { back, entry, lensOf, mm, run, sectionEye } from '../anatomy/section';
import { bent } from '../instruments/section';
import { ellipse, spline } from '../pencil/curves';
import { area, arrow, hatch, note, outline, strong, viscoelastic } from '../pencil/marks';
import { add } from '../pencil/points';
import { sectionScene, type Scene } from '../scene';

const PX = mm(1, 0)[0];

export const nucleusProlapseScenes: readonly Scene[] = [
  sectionScene(
    'prolapse-one-pole',
    'One pole over the rim, OVD above and below',
    'Cross-section. One pole of the nucleus has been brought over the rim into the chamber, with a hook under its edge, and the arrow shows it coming out over the rim, not towards the cornea. Viscoelastic, drawn as dots, lies between nucleus and cornea and under the pole that has come up. The other pole still lies in the bag.',
    () => {
      const lens = lensOf({ apex: 4.2, radius: 18, pole: 7.7, backRadius: 6.6 });
      const centre = mm(-0.15, 4.3);
      const nucleus = ellipse(centre, 3.55 * PX, 1.4 * PX, -21);
      const upper = nucleus
        .filter((p) => p[1] < centre[1] - (p[0] - centre[0]) * 0.384)
        .sort((p, q) => q[0] - p[0])
        .map((p) => add(p, [0, -4]));
      return [
        viscoelastic([...run(back, -4.2, 4.6, 18), mm(4, 3.35), ...upper, mm(-3.6, 3.6)], 6),
        viscoelastic(
          [mm(2.9, 3.75), mm(3.35, 4.2), mm(3.7, 4.75), mm(3.2, 5.6), mm(1.6, 6), mm(0.9, 5.45), mm(2, 4.6)],
          4.6,
          true,
        ),
        sectionEye(lens, { open: 3.2, pupil: 3.7, hang: 0.1 }),
        area(nucleus),
        hatch(nucleus, -12, 5.4),
        outline(nucleus, 2.1),
        bent([add(entry(), [54, -22]), entry(), mm(4.4, 3.05), mm(3.5, 3.78), mm(2.75, 4.05), mm(2.5, 3.8)], 5),
        arrow(spline([mm(2.75, 2.3), mm(3.35, 2.42), mm(3.95, 2.75)]), { accent: false, head: 9 }),
        note('tl', ['OVD under', 'the cornea'], mm(-2.2, 1.65)),
        note('tr', ['hook under', 'the edge'], mm(4.5, 2.98)),
        strong(note('br', 'OVD under the pole', mm(2.4, 5.5))),
        note('bl', ['other pole', 'still in the bag'], mm(-3, 5.7)),
      ];
    },
  ),
];
