import { back, entry, lensOf, mm, run, sectionEye } from '../anatomy/section';
import { probe } from '../instruments/section';
import { spline } from '../pencil/curves';
import { arrow, note, strong, viscoelastic, word } from '../pencil/marks';
import { sectionScene, type Scene } from '../scene';

export const ovdFillScenes: readonly Scene[] = [
  sectionScene(
    'ovd-fill-far-side',
    'Filled from the far side',
    'Cross-section. The cannula has crossed the chamber and lies at the far side. Viscoelastic, drawn as dots, spreads from there towards the port and stops short of it. Fluid leaves past the cannula.',
    () => {
      const lens = lensOf({ apex: 3.35, radius: 11 });
      const filled = [
        ...run(back, -5.1, 1.3, 18),
        ...spline([mm(1.5, 1.1), mm(1.15, 1.9), mm(0.75, 2.6), mm(0.6, 3.2)], 4),
        ...run((x) => lens.anterior(x) - 0.1, 0.4, -3.3, 8),
        mm(-4.9, 3.7),
      ];
      return [
        viscoelastic(filled, 5.2),
        sectionEye(lens),
        probe(mm(-2.9, 2.5), entry()),
        arrow(spline([mm(1.7, 1.35), mm(2.5, 1.6), mm(3.4, 2.05)]), { width: 2, head: 8 }),
        arrow(spline([mm(1.4, 2.75), mm(2.4, 2.8), mm(3.5, 2.82)]), { width: 2, head: 8 }),
        arrow(spline([mm(4.5, 1.95), mm(5.4, 1.88), mm(6.6, 1.75)]), { width: 2.2, head: 9 }),
        note('tl', ['OVD from the', 'far side first'], mm(-3.2, 1.9)),
        strong(note('tr', ['fluid leaves', 'past the cannula'], mm(6.0, 1.7))),
        word(mm(0, 5.9), 'lens'),
      ];
    },
  ),
];
