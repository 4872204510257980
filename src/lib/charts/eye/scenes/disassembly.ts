import { itemAt } from '../../../item-at';
import { lensOf, mm, nucleusOf, run, sectionEye } from '../anatomy/section';
import { phacoTip } from '../instruments/section';
import { spline } from '../pencil/curves';
import { area, bracket, hatch, line, note, pen, strong } from '../pencil/marks';
import { sectionScene, type Scene } from '../scene';

export const disassemblyScenes: readonly Scene[] = [
  sectionScene(
    'disassembly-depth',
    'Depth of the groove',
    'Cross-section along the groove. The tip comes over the iris and over the rim of the opening and works on the far slope. The groove goes down through most of the nucleus in the middle and grows shallow towards the rim, following the curve behind. Three widths of the tip are marked beside it as a measure; a dense nucleus is thicker and needs more. The plate of nucleus left at the back is bracketed.',
    () => {
      const lens = lensOf({ apex: 3.5, radius: 11 });
      const nucleus = nucleusOf(lens, 0.8, 0.3, 0.5);
      const groove = spline(
        [
          [-2.5, 3.86],
          [-2.25, 4.45],
          [-1.65, 5.3],
          [-0.9, 6.05],
          [0, 6.4],
          [0.9, 6.1],
          [1.65, 5.35],
          [2.25, 4.5],
          [2.5, 3.86],
        ].map((point) => mm(itemAt(point, 0), itemAt(point, 1))),
        4,
      );
      return [
        sectionEye(lens, { open: 2.6 }),
        area(nucleus),
        hatch(nucleus, 8, 5.4),
        line([...nucleus, itemAt(nucleus, 0)]),
        area([...groove, mm(1.2, 3.45), mm(-1.2, 3.45)]),
        line(
          run((x) => lens.anterior(x), -2.45, 2.45, 8),
          { dash: 'dash' },
        ),
        pen(groove, 2.8, { land: 0.03, lift: 0.03, accent: true }),
        phacoTip(mm(-1.0, 5.42), mm(4.95, 2.0), 92),
        [0, 1, 2].map((k) => bracket(mm(0.55, 3.52 + k * 0.93), mm(0.55, 3.52 + (k + 1) * 0.93))),
        bracket(mm(0, 6.5), mm(0, 7.46), true),
        note('tl', ['depth: about three', 'widths of the tip'], mm(0.5, 4.2)),
        strong(note('bl', 'plate left at the back', mm(-0.1, 7.1))),
        note('br', ['shallow in the', 'outer third'], mm(2.12, 4.85)),
      ];
    },
  ),
];
