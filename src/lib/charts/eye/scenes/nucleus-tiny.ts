import { entry, lensOf, mm, run, sectionEye } from '../anatomy/section';
import { bent } from '../instruments/section';
import { ellipse } from '../pencil/curves';
import { area, arrow, hatch, note, outline, strong, viscoelastic } from '../pencil/marks';
import { sectionScene, type Scene } from '../scene';

export const tinyNucleus: readonly Scene[] = [
  sectionScene(
    'eye-nucleus-tiny',
    'Floated up, not picked up',
    'Cross-section. A small hard nucleus lies in a large, slack bag. A blunt cannula has gone beneath it, and viscoelastic, drawn as dots, floats it up towards the opening, along the arrow. No point reaches for it.',
    () => {
      const bag = lensOf({ apex: 3.75, radius: 18, pole: 7.6, backRadius: 6.6 });
      const small = ellipse(mm(0.6, 5.2), 30, 17, -10);
      return [
        viscoelastic(
          [
            ...run((x) => bag.posterior(x) - 1.55, -2.6, 3.2, 14),
            ...run((x) => bag.posterior(x) - 0.14, 3.4, -3.2, 16),
          ],
          5,
          true,
        ),
        sectionEye(bag, { open: 3.0 }),
        area(small),
        hatch(small, 14, 3.6),
        outline(small, 2.2),
        bent([mm(7.4, 1.9), entry(), mm(3.2, 3.4), mm(1.7, 5.6), mm(0.9, 6.35)], 5),
        arrow([mm(-0.6, 5.2), mm(-0.75, 4.4), mm(-0.5, 3.3)], { width: 3, head: 11 }),
        strong(note('bl', ['OVD beneath it', 'floats it up'], mm(-1.2, 6.4))),
        note('tl', ['small, hard', 'nucleus'], mm(0.1, 4.85)),
        note('br', ['slack bag', 'filled first'], mm(3.9, 6.2)),
      ];
    },
  ),
];
