import { inIris, limbusTick, place, wallOfEye } from '../anatomy/wall';
import { bladeOf, handle } from '../instruments/tunnel-blade';
import { area, arrow, dot, edge, flat, line, note, pen, strong, viscoelastic, word, wrongWay } from '../pencil/marks';
import { add, from, sub, unit, type Point } from '../pencil/points';
import { wallScene, type Scene } from '../scene';

/** Along the plane of the iris, towards the middle of the eye. */
const PLANE = unit(sub(inIris(1, 0), inIris(0, 0)));
/** Where the blade goes in. */
const OUTER = place(0.28, 0);
const p = (along: number, aside: number): Point => from(OUTER, PLANE, along, aside);

export const sidePortScenes: readonly Scene[] = [
  wallScene(
    'side-port-plane',
    'The blade parallel to the iris',
    'Cross-section of the wall of the eye. A narrow blade goes in at the limbus, through the cornea and into the chamber, parallel to the iris all the way. A dashed line shows a blade that points down: it would reach the iris and the lens, and leave a steep track.',
    () => [
      wallOfEye({ groove: null, lamellae: [1.7, 2.85] }),
      bladeOf([p(-26, -5), p(62, -5)], p(92, 0), [p(-26, 5), p(62, 5)]),
      handle(p(-26, 0), p(-112, 0), 13),
      pen([p(2, 9), p(78, 9)], 2.8, { land: 0.08, lift: 0.08, accent: true }),
      arrow([p(98, 0), p(116, 0), p(138, 0)], { width: 2.8, head: 11 }),
      wrongWay([add(OUTER, [6, 14]), add(OUTER, [40, 62]), add(OUTER, [74, 112])]),
      line([inIris(0.7, -0.12), inIris(2.2, -0.12)], { dash: 'dot', accent: true, sharp: true }),
      limbusTick(),
      word([66, -50], 'cornea', { to: place(1.9, 0.1) }),
      strong(note('br', ['parallel to', 'the iris'], inIris(1.9, -0.12))),
      note('bl', ['pointing down:', 'iris and lens in the way'], add(OUTER, [58, 88])),
      note('tl', 'limbus', place(-0.02, -0.14)),
    ],
  ),
];

export const ovdInsideScenes: readonly Scene[] = [
  wallScene(
    'ovd-fill-tip-inside',
    'The tip seen inside before the first push',
    'Cross-section of the wall of the eye. The cannula has passed along the whole track of the port, and its tip lies in the chamber, well past the inner edge. Viscoelastic, drawn as dots, leaves the tip there. None lies in the track or between the layers of the cornea.',
    () => {
      const tip = p(97, 0);
      const pool: Point[] = [
        p(98, -9),
        p(108, -20),
        p(124, -24),
        p(138, -12),
        p(140, 10),
        p(128, 22),
        p(108, 18),
        p(98, 9),
      ];
      return [
        viscoelastic(pool, 5.4, true),
        wallOfEye({ groove: null, lamellae: [1.7, 2.85] }),
        flat([p(-4, -7.5), p(80, -7.5), p(80, 7.5), p(-4, 7.5)]),
        edge([p(2, -7.5), p(70, -7.5)], 1.4),
        edge([p(2, 7.5), p(68, 7.5)], 1.4),
        area([p(-130, -5), p(-60, -5), p(92, -5), p(97, 0), p(92, 5), p(-60, 5), p(-130, 5)]),
        edge([p(-130, -5), p(92, -5), tip, p(92, 5), p(-130, 5)], 1.7),
        dot(p(70, 8), 4.4, 'mark'),
        limbusTick(),
        word([66, -50], 'cornea', { to: place(1.9, 0.1) }),
        strong(note('br', ['tip seen inside,', 'then the push'], p(112, 10))),
        note('bl', ['inner edge', 'of the port'], p(70, 12)),
        note('tl', 'limbus', place(-0.02, -0.14)),
      ];
    },
  ),
];
