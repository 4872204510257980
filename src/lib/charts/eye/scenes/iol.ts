import { itemAt } from '../../../item-at';
import { annulus, at, fibres, MAIN, OPENING, PORT, ringOf, round, topEye } from '../anatomy/top';
import { nozzle } from '../instruments/top';
import { haptic, hapticAlong } from '../instruments/implant';
import { loop, spline } from '../pencil/curves';
import { area, arrow, fixed, hair, line, note, outline, strong, word } from '../pencil/marks';
import { add, times, turned, type Point } from '../pencil/points';
import { topScene, type Scene } from '../scene';

export const iolScenes: readonly Scene[] = [
  topScene(
    'iol-rim-all-round',
    'The edge over the optic all the way round',
    'The eye from above. The round optic, 6 mm, lies behind the opening of the capsule, 5.2 mm. The rim covers the edge of the optic all round, and this ring is shaded. Both haptics run under the rim into the bag. The lens is the right way up: from its root each haptic runs counter-clockwise.',
    (hand) => [
      topEye({ iris: 0, pupil: 3.6 }),
      fibres(3.6, 112),
      fixed([haptic({ turn: 150 }), haptic({ turn: 330 })]),
      area(annulus(OPENING, 3), 'accent-paper'),
      line(round(3), { dash: 'dash' }),
      ringOf(OPENING, 2.8, true),
      hair([round(2.25, 296, 336), round(2.05, 300, 330)]),
      strong(note('tl', ['rim over the optic,', 'all the way round'], at(2.8, 318))),
      word([0, -3], ['optic', '6 mm']),
      note('tr', ['haptic', 'in the bag'], hand === 'right' ? at(4.5, 62) : at(4.42, 54)),
      note('br', ['edge of', 'the opening'], at(2.62, 150)),
    ],
  ),

  topScene(
    'iol-leading-loop',
    'First haptic under the rim before the optic unfolds',
    'The eye from above. The nozzle lies in the main wound with its opening seen inside. The lens is leaving it, still folded. Its first haptic, with the free end to the left of the way in, runs under the edge of the opening into the bag, dashed where the capsule covers it.',
    (hand) => {
      // The lens is turned with the wound, never mirrored: its free end lies to the left of the way in for either hand.
      const turn = hand === 'right' ? 0 : PORT - MAIN;
      const there = (p: Point) => turned(p, turn);
      const u = times(turned([0, -1], MAIN), 20);
      const p = (along: number, aside: number): Point => there(add(times(u, along), times([-u[1], u[0]], aside)));
      const optic = loop(
        [p(0.6, 0.86), p(-0.8, 0.72), p(-1.35, 0), p(-0.8, -0.72), p(0.6, -0.86), p(2, -0.62), p(2, 0.62)],
        6,
      );
      const seen = spline([p(-1.3, -0.1), there(at(1.95, 312)), there(at(2.32, 302)), there(at(2.62, 291))], 6);
      const under = spline(
        [
          [2.62, 291],
          [3.15, 277],
          [3.75, 260],
          [4.1, 242],
        ].map((point) => there(at(itemAt(point, 0), itemAt(point, 1)))),
        6,
      );
      const middle = p(0.3, 0);
      return [
        topEye({ iris: 112 }),
        ringOf(OPENING, 2.2),
        fixed([
          area(optic),
          outline(optic, 1.8),
          line([
            spline([p(1.7, 0.18), p(0.4, 0.3), p(-0.8, 0.12)], 5),
            spline([p(1.7, -0.2), p(0.4, -0.3), p(-0.8, -0.1)], 5),
          ]),
        ]),
        nozzle(MAIN, 1.3),
        fixed([
          hapticAlong(seen, middle, { accent: true }),
          hapticAlong(under, middle, { covered: true, accent: true }),
          arrow(
            spline(
              [
                [3.45, 290],
                [3.9, 277],
                [4.45, 264],
              ].map((point) => there(at(itemAt(point, 0), itemAt(point, 1)))),
            ),
            { width: 2.4, head: 9 },
          ),
        ]),
        fixed(
          hand === 'right'
            ? [
                strong(note('tl', ['first haptic', 'under the rim'], at(2.62, 293))),
                note('bl', ['in the bag,', 'covered'], at(4.0, 247)),
                note('tr', 'optic still folded', p(-0.2, 0.5)),
                note('br', ['nozzle', 'seen inside'], p(1.9, 0.5)),
              ]
            : [
                strong(note('tr', ['first haptic', 'under the rim'], there(at(2.62, 293)))),
                note('tl', ['in the bag,', 'covered'], there(at(4.0, 247))),
                note('br', ['optic still', 'folded'], p(-0.2, 0.5)),
                note('bl', ['nozzle', 'seen inside'], p(1.9, -0.5)),
              ],
        ),
      ];
    },
  ),
];
