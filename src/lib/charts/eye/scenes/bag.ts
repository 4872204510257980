import { at, MAIN, OPENING, PORT, ringOf, round, topEye, wound } from '../anatomy/top';
import { entry, lensOf, mm, run, sectionEye } from '../anatomy/section';
import { sleeved } from '../instruments/top';
import { probe } from '../instruments/section';
import { range } from '../pencil/curves';
import { arrow, line, note, pen, strong, viscoelastic } from '../pencil/marks';
import type { Point } from '../pencil/points';
import { sectionScene, topScene, type Scene } from '../scene';
import { cortexFibres } from './cortex';

export const bagScenes: readonly Scene[] = [
  topScene(
    'cortex-folds',
    'Fine folds run to the tip: let go',
    'The eye from above. The aspiration tip lies in the bag, its opening in view. Fine folds of the posterior capsule run together to the opening, like a star. There is no arrow for a pull: the capsule is let go at once.',
    () => {
      const tip = at(0.75, 215);
      const folds = range(0, 340, 17, (a): Point[] => [
        [tip[0] + 9 * Math.sin((a * Math.PI) / 180), tip[1] - 9 * Math.cos((a * Math.PI) / 180)],
        [
          tip[0] + (24 + ((a * 7) % 16)) * Math.sin(((a + 3) * Math.PI) / 180),
          tip[1] - (24 + ((a * 7) % 16)) * Math.cos(((a + 3) * Math.PI) / 180),
        ],
      ]).filter((_, i) => i < 6 || i > 9);
      return [
        topEye({ iris: 112 }),
        cortexFibres(320, 420),
        ringOf(OPENING, 2.2),
        line(folds, { accent: true }),
        sleeved(tip, MAIN, 'round'),
        strong(note('tl', ['folds:', 'let go'], at(1.6, 270))),
        note('tr', ['cortex', 'still there'], at(3.1, 38)),
        note('bl', 'no pull', at(1.2, 222)),
      ];
    },
  ),

  topScene(
    'cortex-under-wound',
    'Another port reaches the sector under the wound',
    'The eye from above. The sector of cortex under the main wound is shaded with fine lines. A tip that has come in through the other port, on the {left}, reaches it straight across, without being bent back on itself. The main wound is left closed.',
    () => [
      topEye({ iris: 112 }),
      wound(PORT + 30, 1.1, 1.1),
      cortexFibres(92, 178),
      ringOf(OPENING, 2.2),
      sleeved(at(2.35, 126), PORT + 30, 'round'),
      pen(round(3.42, 98, 172), 3, { land: 0.1, lift: 0.1, accent: true }),
      arrow([at(2.0, 118), at(1.3, 100), at(0.7, 60)], { width: 2.4, head: 9, accent: false }),
      strong(note('br', ['sector under', 'the wound'], at(3.42, 112))),
      note('tl', ['tip through', 'another port'], at(3.4, 262)),
    ],
  ),

  sectionScene(
    'refill-whole-bag',
    'Open all round, to the equator',
    'Cross-section. Viscoelastic, drawn as dots, fills the bag from side to side: the posterior capsule has sunk away from the anterior rim as far as the equator on both sides. The cannula has come over the rim and does not touch the capsule.',
    () => {
      const lens = lensOf({ apex: 3.75, radius: 16, pole: 7.3, backRadius: 7 });
      const filled = [
        ...run((x) => lens.anterior(x) + 0.14, -4.15, 4.15, 16),
        ...lens.rim(1).map(([x, y]): Point => [x - 3, y]),
        ...run((x) => lens.posterior(x) - 0.12, 4.1, -4.1, 20),
        ...[...lens.rim(-1)].reverse().map(([x, y]): Point => [x + 3, y]),
      ];
      return [
        viscoelastic(filled, 5, true),
        sectionEye(lens, { open: 2.6 }),
        probe(mm(0.2, 4.5), entry()),
        ([-1, 1] as const).map((k) => arrow([mm(k * 2.6, 5.2), mm(k * 3.3, 5.2), mm(k * 4.2, 5.2)], { head: 9 })),
        note('tr', ['cannula over', 'the rim'], mm(2.6, 3.4)),
        strong(note('bl', ['open to the', 'equator'], mm(-4.1, 5.4))),
        note('br', ['capsule sunk', 'away'], mm(2.6, 6.8)),
      ];
    },
  ),
];
