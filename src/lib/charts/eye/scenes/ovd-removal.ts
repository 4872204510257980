import { lensOf, mm, run, sectionEye } from '../anatomy/section';
import { aspirationTip } from '../instruments/section';
import { implantSection, opticEdge } from '../instruments/implant-section';
import { spline } from '../pencil/curves';
import { arrow, note, strong, viscoelastic, word } from '../pencil/marks';
import { sectionScene, type Scene } from '../scene';

export const ovdRemovalScenes: readonly Scene[] = [
  sectionScene(
    'ovd-out-behind',
    'OVD out from behind the optic',
    'Cross-section. The lens lies in the bag. The tip has come over the iris and the rim and slipped under the near edge of the optic, which is nudged aside and rides on the tip. The opening faces forwards, away from the capsule, and the dotted viscoelastic behind the optic flows to it.',
    () => {
      const lens = lensOf({ apex: 4.15, radius: 22, pole: 6.75, backRadius: 8.2, equator: 5.05 });
      const implant = { y: 4.3, x: -0.75, tilt: 13 };
      const behind = [
        ...run((x) => opticEdge(implant, x) + 0.15, -3.6, 2.2, 10),
        mm(3, 4.75),
        mm(4, 5.1),
        ...run((x) => lens.posterior(x) - 0.12, 3.7, -3.7, 14),
        mm(-4, 5.15),
      ];
      return [
        viscoelastic(behind, 4.6, true),
        sectionEye(lens, { open: 2.6 }),
        implantSection(implant, [-1]),
        aspirationTip(mm(0.25, 5.3), mm(5, 2.35), 1),
        arrow(spline([mm(-3, 5.7), mm(-1.7, 5.78), mm(-0.5, 5.3), mm(-0.1, 5.02)]), { head: 9 }),
        strong(note('bl', ['OVD behind the optic', 'flows to the opening'], mm(-1.7, 5.95))),
        note('br', ['tip under the optic,', 'opening forwards'], mm(0.95, 5.35)),
        word(mm(-1.1, 3.55), 'optic'),
      ];
    },
  ),
];
