import { back, entry, lensOf, mm, nucleusOf, run, sectionEye } from '../anatomy/section';
import { aspirationTip, phacoTip } from '../instruments/section';
import { implantSection } from '../instruments/implant-section';
import { spline } from '../pencil/curves';
import { area, arrow, flat, hatch, line, note, strong, viscoelastic } from '../pencil/marks';
import { sectionScene, type Scene } from '../scene';

export const flowScenes: readonly Scene[] = [
  sectionScene(
    'nucleus-tip-cleared',
    'Viscoelastic cleared at the tip before the first energy',
    'Cross-section. The chamber is full of viscoelastic, drawn as dots. In front of the tip it has been aspirated, and the clear space there is outlined. Arrows show fluid that leaves the sleeve and flows past the tip. Ultrasound has not begun.',
    () => {
      const lens = lensOf({ apex: 3.6, radius: 11 });
      const nucleus = nucleusOf(lens, 0.8, 0.3, 0.5);
      const clear = spline(
        [
          mm(2.3, 2.3),
          mm(0.9, 2.0),
          mm(-0.7, 2.35),
          mm(-0.95, 3.05),
          mm(0.2, 3.42),
          mm(1.9, 3.3),
          mm(2.7, 2.9),
          mm(2.3, 2.3),
        ],
        6,
      );
      return [
        viscoelastic([...run(back, -4.7, 4.6, 20), ...run((x) => lens.anterior(x) - 0.12, 3.4, -3.4, 14)], 5.2),
        sectionEye(lens, { open: 2.6 }),
        area(nucleus),
        hatch(nucleus, 8, 5.4),
        line([...nucleus, ...nucleus.slice(0, 1)]),
        flat(clear),
        line(clear, { accent: true }),
        phacoTip(mm(0.55, 2.95), mm(4.95, 2.0), 34),
        arrow(spline([mm(1.9, 2.25), mm(1.0, 2.2), mm(0.1, 2.45)]), { width: 2.4, head: 9 }),
        arrow(spline([mm(2.3, 3.2), mm(1.3, 3.28), mm(0.3, 3.25)]), { width: 2.4, head: 9 }),
        strong(note('tl', ['cleared, and', 'fluid flows past'], mm(-0.7, 2.5))),
        note('bl', 'OVD elsewhere', mm(-3.2, 2.9)),
        note('br', ['no energy', 'before that'], mm(0.9, 2.85)),
      ];
    },
  ),

  sectionScene(
    'ovd-out-angles',
    'The flow reaches the angle all round',
    'Cross-section. The lens lies in the bag. Some viscoelastic, drawn as dots, is left in the angle of the chamber on both sides. Arrows show the flow that washes it out of there to the opening of the tip in the middle.',
    () => {
      const lens = lensOf({ apex: 4.15, radius: 22, pole: 6.75, backRadius: 8.2, equator: 5.05 });
      return [
        ([-1, 1] as const).map((k) =>
          viscoelastic(
            [mm(k * 5.5, 3.3), mm(k * 5.0, 2.5), mm(k * 4.2, 2.5), mm(k * 4.1, 3.6), mm(k * 5.2, 3.7)],
            4.4,
            true,
          ),
        ),
        sectionEye(lens, { open: 2.6 }),
        implantSection({ y: 4.35 }),
        aspirationTip(mm(0.3, 3.2), entry(), 1),
        arrow(spline([mm(-4.6, 3.2), mm(-3.4, 2.7), mm(-2.0, 2.7), mm(-0.5, 3.05)]), { width: 2.8, head: 10 }),
        arrow(spline([mm(4.4, 3.35), mm(3.4, 3.5), mm(2.2, 3.55), mm(1.0, 3.45)]), { width: 2.4, head: 9 }),
        strong(note('bl', ['angles', 'washed out'], mm(-4.7, 3.3))),
        note('br', ['here, too'], mm(4.7, 3.4)),
        note('tl', ['opening', 'in view'], mm(0.3, 2.95)),
      ];
    },
  ),
];
