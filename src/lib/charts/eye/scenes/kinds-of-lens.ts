import { back, entry, lensOf, mm, nucleusOf, run, sectionEye } from '../anatomy/section';
import { bent, phacoTip } from '../instruments/section';
import { ellipse, spline } from '../pencil/curves';
import { area, cross, flat, hatch, line, note, outline, pen, strong, viscoelastic, word } from '../pencil/marks';
import { add } from '../pencil/points';
import { sectionScene, type Scene } from '../scene';

export const kindsOfLens: readonly Scene[] = [
  sectionScene(
    'eye-polar',
    'Delineated only: a ring inside the lens',
    'Cross-section. A posterior polar opacity, dark, sits on the back of the capsule. The cannula has gone into the lens itself, not under the rim, and the fluid makes a ring between nucleus and epinucleus, drawn strong. A wave along the capsule, dashed, is crossed out. Nothing is turned.',
    () => {
      const lens = lensOf({ apex: 3.6, radius: 12 });
      const nucleus = ellipse(mm(0, 5.55), 58, 30);
      const wave = run((x) => lens.posterior(x) - 0.14, 4.1, 1.1, 10);
      const opacity = [
        ...run((x) => lens.posterior(x) - 0.02, -0.75, 0.75, 8),
        ...run((x) => lens.posterior(x) - 0.34 + 0.3 * x * x, 0.7, -0.7, 8),
      ];
      return [
        sectionEye(lens, { open: 2.6 }),
        area(nucleus),
        hatch(nucleus, 8, 5.4),
        outline(nucleus, 3, true),
        flat(opacity, 'ink'),
        line(wave, { dash: 'dash' }),
        cross(mm(2.3, 7.25), 6),
        bent([add(entry(-1), [-56, -23]), entry(-1), mm(-3.4, 2.95), mm(-2.2, 3.75), mm(-1.75, 4.45)], 5),
        strong(note('tl', ['ring inside', 'the lens'], mm(-2.45, 5.1))),
        note('br', ['no wave at', 'the capsule'], mm(2.9, 7.05)),
        note('bl', ['opacity, capsule', 'weak here'], mm(-0.5, 7.9)),
        word(mm(0, 5.65), 'nucleus'),
      ];
    },
  ),

  sectionScene(
    'eye-nucleus-brown',
    'A cushion renewed, a deeper groove',
    'Cross-section along the groove. The brown nucleus fills nearly the whole bag. The groove is deeper and wider than in a medium lens, and still leaves a plate at the back. Under the cornea lies a fresh layer of viscoelastic, drawn as dots.',
    () => {
      const lens = lensOf({ apex: 3.4, radius: 10.5, pole: 8.2 });
      const nucleus = nucleusOf(lens, 0.93, 0.16, 0.28);
      const groove = spline(
        (
          [
            [-2.5, 3.75],
            [-2.2, 4.7],
            [-1.6, 5.8],
            [-0.8, 6.75],
            [0, 7.05],
            [0.8, 6.8],
            [1.6, 5.85],
            [2.2, 4.75],
            [2.5, 3.75],
          ] as const
        ).map(([x, y]) => mm(x, y)),
        4,
      );
      return [
        viscoelastic(
          [...run((x) => back(x) + 0.08, -3.6, 3.6, 18), ...run((x) => back(x) + 0.75, 3.3, -3.3, 16)],
          4.6,
          true,
        ),
        sectionEye(lens, { open: 2.6 }),
        area(nucleus),
        hatch(nucleus, 8, 3.4),
        hatch(nucleus, -52, 6),
        line([...nucleus, ...nucleus.slice(0, 1)]),
        area([...groove, mm(1.2, 3.4), mm(-1.2, 3.4)]),
        pen(groove, 2.4, { land: 0.03, lift: 0.03 }),
        phacoTip(mm(-0.95, 6.0), mm(4.95, 2.0), 104),
        strong(note('tl', ['cushion,', 'renewed'], mm(-2.2, 1.35))),
        note('bl', ['leathery plate', 'at the back'], mm(0, 7.5)),
        note('br', ['deeper, and', 'wider'], mm(1.75, 5.6)),
      ];
    },
  ),
];
