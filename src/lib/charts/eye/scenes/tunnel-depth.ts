import { GROOVE, layer, limbusTick, place, THICK, wallOfEye } from '../anatomy/wall';
import { bent } from '../instruments/section';
import { spline } from '../pencil/curves';
import { area, bracket, flat, hatch, line, note, outline, pen, strong, word, type Marks } from '../pencil/marks';
import { add, type Point } from '../pencil/points';
import { sceneOf, wallScene, type Scene } from '../scene';

const HALF = THICK * 0.48;

/** A blade under its roof, seen from above: how much of it shows tells how deep it lies. */
function shining(x: number, how: 'dim' | 'right' | 'bright'): Marks {
  const roof: Point[] = [
    [x - 44, 8],
    [x + 44, 8],
    [x + 44, 92],
    [x - 44, 92],
  ];
  const blade = spline(
    [
      [x - 9, 92],
      [x - 10, 66],
      [x - 22, 46],
      [x, 28],
      [x + 22, 46],
      [x + 10, 66],
      [x + 9, 92],
    ],
    6,
  );
  return [
    flat(roof),
    hatch(roof, 90, how === 'bright' ? 9 : 5),
    how === 'bright' ? [area(blade), outline(blade.slice(0, -1), 2.6)] : [],
    how === 'right' ? [area(blade), hatch(blade, 90, 6), outline(blade.slice(0, -1), 1.7, true)] : [],
    how === 'dim' ? line(blade, { dash: 'dot' }) : [],
    pen(
      [
        [x - 46, 92],
        [x, 92],
        [x + 46, 92],
      ],
      3,
      { land: 0.05, lift: 0.05 },
    ),
  ];
}

export const tunnelDepthScenes: readonly Scene[] = [
  wallScene(
    'tunnel-depth-checked',
    'The edge of the groove lifted, its floor seen',
    'Cross-section of the wall of the eye. The groove has been cut behind the limbus to half the thickness of the sclera. Forceps lift its front edge, so that the floor can be seen. The depth from the surface to the floor is bracketed. No blade has gone into a tunnel yet.',
    () => {
      const lift = (q: number) => 0.3 * Math.max(0, 1 - (q - GROOVE) / 0.8);
      const lip = place(GROOVE + 0.04, -lift(GROOVE) + 0.1);
      return [
        wallOfEye({ lift }),
        flat([
          place(GROOVE, -lift(GROOVE) - 0.04),
          place(GROOVE + 0.12, HALF * 0.5),
          place(GROOVE + 0.05, HALF),
          place(GROOVE - 0.26, HALF),
          place(GROOVE - 0.32, -0.08),
        ]),
        pen([place(GROOVE, -lift(GROOVE)), place(GROOVE + 0.1, HALF * 0.45), place(GROOVE + 0.04, HALF)], 2),
        pen([place(GROOVE - 0.3, 0), place(GROOVE - 0.26, HALF)], 1.8),
        pen(layer(HALF, GROOVE - 0.27, GROOVE + 0.05, 4), 3.4, { land: 0.05, lift: 0.05, accent: true }),
        bent([add(lip, [70, -104]), add(lip, [34, -52]), add(lip, [-2, -4])], 4),
        bent([add(lip, [80, -98]), add(lip, [40, -38]), add(lip, [5, 8])], 4),
        bracket(place(GROOVE - 0.46, 0), place(GROOVE - 0.46, HALF), true),
        limbusTick(),
        strong(note('bl', ['half depth,', 'seen'], place(GROOVE - 0.1, HALF + 0.04))),
        word([44, -58], ['edge lifted'], { to: add(lip, [20, -24]), anchor: 'start' }),
        word([-2, 26], 'limbus', { anchor: 'start', to: place(0, -0.14) }),
        word([48, 152], 'iris', { anchor: 'end' }),
      ];
    },
  ),

  sceneOf([-160, -8, 320, 146])(
    'tunnel-blade-shine',
    'How much of the blade shows through the roof',
    'Three small pictures of the blade in the tunnel, from above. On the left the blade has vanished and is only dotted: it is too deep. In the middle it can just be made out through the tissue above it: right. On the right it shines bright and clear: it is too shallow and about to come through.',
    () => [
      shining(-107, 'dim'),
      shining(0, 'right'),
      shining(107, 'bright'),
      word([-107, 110], ['vanished:', 'too deep']),
      strong(word([0, 110], ['just visible:', 'right'])),
      word([107, 110], ['bright:', 'too shallow']),
    ],
  ),
];
