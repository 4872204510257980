import { at, MAIN, OPENING, PORT, round, topEye } from '../anatomy/top';
import { back, entry, lensOf, mm, run, sectionEye } from '../anatomy/section';
import { probe } from '../instruments/section';
import { rod } from '../instruments/top';
import { spline } from '../pencil/curves';
import { area, arrow, dot, hatch, line, note, pen, strong, viscoelastic } from '../pencil/marks';
import { sectionScene, topScene, type Scene } from '../scene';

export const whiteLens: readonly Scene[] = [
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
];
