import { range, spline } from '../pencil/curves';
import { bracket, dot, hair, hatch, line, note, pen, strong, word, wrongWay, edge } from '../pencil/marks';
import { add, type Point } from '../pencil/points';
import type { Frame } from '../pencil/labels';
import { sceneOf, type Scene } from '../scene';

const FRAME: Frame = [-160, -2, 320, 272];
const surface = (x: number) => 138 - 62 * Math.sin(((x + 172) / 344) * 1.35) - (x + 172) * 0.16;
const endothelium = (x: number) => surface(x) + 62 + (x + 172) * 0.02;
const along = (f: (x: number) => number, a: number, b: number) => range(a, b, 14, (x): Point => [x, f(x)]);
const inWall = (x: number, share: number): Point => [x, surface(x) + (endothelium(x) - surface(x)) * share];

export const mainIncisionScenes: readonly Scene[] = [
  sceneOf(FRAME, [-156, 8, 312, 262])(
    'main-incision-inner-lip',
    'Tunnel nearly as long as wide, straight inner lip',
    'Close-up of the edge of the cornea in section. The path of the blade enters at the limbus, runs within the cornea, dips, goes through into the chamber and leaves an inner lip in clear cornea. The length of the tunnel is bracketed. A short, steep path, dashed, would leak. Below, the tunnel from above: its inner lip is a straight line.',
    () => {
      const tunnel = spline([inWall(-108, 0), inWall(-80, 0.4), inWall(-20, 0.52), inWall(28, 0.62), inWall(52, 1)], 8);
      const inner = inWall(52, 1);
      const inset: Point[] = [
        [34, 262],
        [35, 222],
        [91, 222],
        [92, 262],
      ];
      return [
        hair([0.2, 0.4, 0.6, 0.8].map((share) => along((x) => inWall(x, share)[1], -62, 165))),
        hatch([...along(surface, -172, -118), ...along(endothelium, -118, -172)], 70, 5),
        edge(along(surface, -172, 172), 2.4),
        edge(along(endothelium, -172, 172), 1.8),
        wrongWay([inWall(-104, 0.12), inWall(-84, 0.6), add(inWall(-64, 1), [4, 12])]),
        pen(tunnel, 3.2, { land: 0.05, lift: 0.04, accent: true }),
        dot(inner, 4.4),
        bracket([-108, surface(-108) - 20], [52, surface(-108) - 20], false),
        line(
          [
            [
              [-108, surface(-108) - 16],
              [-108, surface(-108) - 4],
            ],
            [
              [52, surface(-108) - 16],
              [52, surface(52) - 5],
            ],
          ],
          { sharp: true, dash: 'dot' },
        ),
        hatch(
          [
            [35, 258],
            [36, 224],
            [90, 224],
            [91, 258],
          ],
          90,
          7,
        ),
        pen(
          spline(
            [
              [-12, 256],
              [34, 263],
              [92, 263],
              [138, 256],
            ],
            6,
          ),
          2.2,
        ),
        line([inset.slice(0, 2), inset.slice(2)], { sharp: true }),
        pen(
          [
            [35, 222],
            [63, 222],
            [91, 222],
          ],
          2.8,
          { land: 0.04, lift: 0.04, accent: true },
        ),
        strong(word([-28, 72], 'length of the tunnel')),
        word([157, 150], ['inner lip,', 'in clear cornea'], { anchor: 'end', to: add(inner, [3, 5]) }),
        note('bl', ['short and', 'steep: leaks'], inWall(-70, 0.98)),
        strong(word([157, 196], 'from above: lip straight', { anchor: 'end' })),
        word([126, 76], 'cornea'),
        word([-157, 82], 'limbus', { anchor: 'start', to: inWall(-121, -0.03) }),
      ];
    },
  ),
];
