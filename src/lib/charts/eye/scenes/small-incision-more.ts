import { at, round, topEye, TUNNEL_PORT } from '../anatomy/top';
import { sleeved } from '../instruments/top';
import { range, spline } from '../pencil/curves';
import { area, dot, fibre, hair, hatch, line, note, outline, pen, strong, word, type Marks } from '../pencil/marks';
import type { Point } from '../pencil/points';
import { sceneOf, topScene, type Scene } from '../scene';
import { cortexFibres } from './cortex';

/** The end of a vessel on the sclera after a touch. */
function touched(x: number, how: 'open' | 'pale' | 'brown'): Marks {
  const end: Point = [x, 46];
  return [
    line(spline([[x - 22, 100], [x - 8, 78], [x - 10, 64], end], 6)),
    line(spline([[x + 16, 100], [x + 4, 82], [x + 6, 66], end], 6)),
    how === 'open' ? [0, 1, 2].map((i): Marks => dot([x - 6 + i * 7, 34 - i * 5], 2.6, 'ink-dot')) : [],
    how === 'pale' ? dot(end, 8, 'mark') : [],
    how === 'brown'
      ? [
          dot(end, 11, 'ink-dot'),
          fibre(
            range(0, 330, 11, (a): Point[] => [
              [x + 13 * Math.sin(a / 57.3), 46 - 13 * Math.cos(a / 57.3)],
              [x + 24 * Math.sin(a / 57.3), 46 - 24 * Math.cos(a / 57.3)],
            ]),
          ),
        ]
      : [],
  ];
}

export const smallIncisionMore: readonly Scene[] = [
  sceneOf([-160, -8, 320, 154])(
    'cautery-light-touch',
    'White means closed, brown means burnt',
    'Three small pictures of the end of a vessel on the sclera. On the left it is still open and bleeds. In the middle a brief touch has turned it pale, and it is closed: right. On the right it has been burnt, and the tissue round it is drawn together in folds.',
    () => [
      touched(-107, 'open'),
      touched(0, 'pale'),
      touched(107, 'brown'),
      word([-107, 118], ['open:', 'still bleeds']),
      strong(word([0, 118], ['pale:', 'closed, stop'])),
      word([107, 118], ['brown:', 'shrunken']),
    ],
  ),

  sceneOf([-160, -130, 320, 280])(
    'bridle-downgaze',
    'The upper limbus in the middle of the field',
    'The field of the microscope as a circle. The eye has been turned down with the bridle suture, so that the cornea lies at the far side and the upper limbus, drawn strong, runs through the middle. Between it and the surgeon’s seat lies bare room for the tunnel. The thread of the suture has a little slack.',
    () => {
      const centre: Point = [0, -102];
      const ring = (r: number, a: number, b: number): Point[] =>
        range(a, b, 40, (x) => [centre[0] + r * Math.sin(x / 57.3), centre[1] - r * Math.cos(x / 57.3)]);
      const inField = (points: readonly Point[]) => points.filter(([x, y]) => Math.hypot(x, y) < 118);
      return [
        outline(
          range(0, 354, 59, (a): Point => [120 * Math.sin(a / 57.3), -120 * Math.cos(a / 57.3)]),
          1.4,
        ),
        fibre(
          range(130, 230, 34, (a) =>
            inField(
              ring(64, a, a + 0.1)
                .slice(0, 1)
                .concat(ring(94, a, a + 0.1).slice(0, 1)),
            ),
          ).filter((each) => each.length === 2),
        ),
        pen(inField(ring(60, 96, 264)), 1.5),
        pen(inField(ring(102, 108, 252)), 3.4, { land: 0.04, lift: 0.04, accent: true }),
        hair(inField(ring(106, 112, 248))),
        line(
          spline(
            [
              [-8, 84],
              [-3, 100],
              [-14, 122],
              [-20, 146],
            ],
            8,
          ),
        ),
        line(
          spline(
            [
              [8, 84],
              [4, 98],
              [14, 120],
              [22, 146],
            ],
            8,
          ),
        ),
        pen(
          [
            [-10, 84],
            [0, 80],
            [10, 84],
          ],
          2.2,
        ),
        strong(word([0, 22], 'upper limbus, in the middle', { to: [0, 1] })),
        word([0, 56], 'room for the tunnel'),
        note('bl', ['thread, a', 'little slack'], [-13, 118]),
        note('tl', ['cornea,', 'turned down'], [-40, -60]),
      ];
    },
  ),

  topScene(
    'mcortex-tags',
    'Tags of the edge told apart from cortex',
    'The eye from above, with the scleral tunnel at the seat. The opening was made with small cuts, and two tags of capsule stand in from its edge: thin, clear and fixed at their root. Cortex, drawn as fine fibres, has no edge and floats. The cannula takes cortex and stays away from the tags.',
    () => {
      const edge = range(0, 352, 44, (a) => at(2.75 + (Math.round(a / 8) % 2 ? 0.14 : -0.1), a));
      const tag = (a: number): Point[] => [
        at(2.8, a - 9),
        at(2.05, a - 1),
        at(1.75, a + 3),
        at(2.2, a + 5),
        at(2.8, a + 9),
      ];
      return [
        topEye({ iris: 96, wounds: 'tunnel' }),
        cortexFibres(296, 352),
        outline(edge, 1.8),
        [62, 148].map((a) => [
          area(spline(tag(a), 4)),
          pen(spline(tag(a), 4), 2.6, { land: 0.04, lift: 0.04, accent: true }),
        ]),
        sleeved(at(2.0, 312), TUNNEL_PORT, 'round'),
        strong(note('tr', ['tag: clear,', 'fixed at its root'], at(2.0, 62))),
        note('tl', ['cortex: fibres', 'without an edge'], at(3.1, 322)),
        note('br', ['another tag,', 'left alone'], at(2.0, 148)),
        hair(round(3.42, 294, 354)),
        hatch([tag(62)], 40, 6),
      ];
    },
  ),
];
