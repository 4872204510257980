import { at, MAIN, OPENING, PORT, round, topEye } from '../anatomy/top';
import { back, entry, lensOf, mm, nucleusOf, run, sectionEye } from '../anatomy/section';
import { bent, phacoTip, probe } from '../instruments/section';
import { rod } from '../instruments/top';
import { ellipse, spline } from '../pencil/curves';
import {
  area,
  arrow,
  cross,
  dot,
  flat,
  hatch,
  line,
  note,
  outline,
  pen,
  strong,
  viscoelastic,
  word,
} from '../pencil/marks';
import { add } from '../pencil/points';
import { sectionScene, topScene, type Scene } from '../scene';

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
    'eye-nucleus-white',
    'Flat before the first puncture',
    'Cross-section. The lens is white and swollen, and presses forwards, as the light arrows inside it show. Viscoelastic, drawn as dots, fills the whole chamber and presses the front of the lens flat. The needle waits above it and has not touched the capsule.',
    () => {
      const lens = lensOf({ apex: 3.55, radius: 34, pole: 8.3, backRadius: 5.9 });
      const inner = [
        ...run((x) => lens.anterior(x) + 0.15, -4.1, 4.1, 14),
        ...run((x) => lens.posterior(x) - 0.15, 4.0, -4.0, 18),
      ];
      return [
        viscoelastic([...run(back, -5.0, 5.0, 20), ...run((x) => lens.anterior(x) - 0.16, 3.7, -3.7, 14)], 5, true),
        sectionEye(lens),
        hatch(inner, 0, 8),
        ([-1.6, 0, 1.6] as const).map((x) =>
          arrow([mm(x, 6.2), mm(x, 5.4), mm(x, 4.3)], { accent: false, width: 2, head: 8 }),
        ),
        pen(
          run((x) => lens.anterior(x), -3.9, 3.9, 14),
          3,
          { land: 0.05, lift: 0.05, accent: true },
        ),
        probe(mm(-0.6, 2.7), entry(-1), 4.4),
        strong(note('bl', ['flat before', 'the puncture'], mm(-3.0, 3.72))),
        note('tr', ['chamber full', 'to the wounds'], mm(3.2, 2.3)),
        note('br', ['pressure from', 'within the lens'], mm(1.6, 5.6)),
      ];
    },
  ),

  topScene(
    'rhexis-white',
    'A small hole in the middle, the milk out first',
    'The eye from above. The capsule of a white lens has one small hole in its middle, marked. A needle in the hole draws off milky fluid. The circle that will be torn afterwards is dotted; the tear has not begun.',
    () => {
      const milk = spline([at(0.25, 320), at(0.95, 290), at(1.2, 330), at(0.9, 20), at(0.3, 30), at(0.25, 320)], 6);
      return [
        topEye({ iris: 112 }),
        hatch([round(3.4).slice(0, -1)], 0, 9),
        area(milk, 'accent-paper'),
        line(round(OPENING), { dash: 'dot' }),
        dot([0, 0], 7, 'mark'),
        rod([0, 0], MAIN, 0.26),
        rod(at(3.6, PORT), PORT, 0.4),
        arrow([at(0.8, MAIN + 14), at(1.9, MAIN + 6), at(3.0, MAIN + 4)], { width: 2.4, head: 9 }),
        strong(note('tl', ['small hole,', 'milk out first'], at(0.3, 318))),
        note('tr', ['torn only', 'afterwards'], at(OPENING, 50)),
        note('bl', ['then filled', 'again'], at(3.7, PORT)),
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
