import { above, GROOVE, layer, limbusTick, perMm, place, THICK, wallOfEye } from '../anatomy/wall';
import { bladeOf, handle } from '../instruments/tunnel-blade';
import { polar, range, spline } from '../pencil/curves';
import { area, arrow, bracket, fibre, flat, hair, hatch, note, pen, strong, word, wrongWay } from '../pencil/marks';
import { add, times, type Point } from '../pencil/points';
import { sceneOf, wallScene, type Scene } from '../scene';

/** The tunnel from above, larger than in the other views: px per mm, and the middle of the eye. */
const LARGE = 26;
const CENTRE: Point = [0, -108];
const spot = (mm: number, angle: number) => add(CENTRE, polar(mm * LARGE, angle));
const bow = (mm: number, a: number, b: number) => range(a, b, 24, (angle) => spot(mm, angle));
const frown = range(-3.3, 3.3, 24, (x): Point => [x * LARGE, 108 - 20 * (1 - (x / 3.3) ** 2)]);

export const scleralTunnelScenes: readonly Scene[] = [
  sceneOf([-160, -62, 320, 222], [-130, -50, 260, 180])(
    'tunnel-pockets',
    'Frown, tunnel, and a pocket on each side',
    'The lower part of the eye from above, with the surgeon below. A frown-shaped groove, 6 to 7 mm, lies 1.5 to 2 mm behind the limbus. The tunnel runs from it into clear cornea by 1 to 1.5 mm and widens into a pocket on both sides, so that it is wider inside than outside.',
    () => {
      const inner = bow(4.75, 228, 132);
      const tunnel = [
        ...frown,
        [86, 54] as Point,
        spot(5.3, 140),
        ...[...inner].reverse(),
        spot(5.3, 220),
        [-86, 54] as Point,
      ];
      const pocket = (k: 1 | -1): Point[] => [
        [k * 86, 106],
        [k * 101, 70],
        spot(6.1, 180 - k * 43),
        spot(5.5, 180 - k * 48.5),
        spot(4.78, 180 - k * 47.5),
        spot(5.3, 180 - k * 40),
        [k * 86, 54],
      ];
      const sides = [-1, 1] as const;
      return [
        pen(bow(5.9, 112, 248), 2.2, { land: 0.03, lift: 0.03 }),
        hair(bow(6.12, 114, 246)),
        fibre(range(120, 240, 45, (a) => [spot(3.3, a), spot(4.4 + ((a * 7) % 5) * 0.18, a)])),
        pen(bow(3, 112, 248), 1.5),
        flat(tunnel),
        hatch(tunnel, 90, 6),
        sides.map((k) => [
          area(pocket(k), 'accent-paper'),
          pen(spline(pocket(k), 5), 2.2, { land: 0.05, lift: 0.05, accent: true }),
          arrow(
            spline(
              [
                [k * 76, 74],
                [k * 87, 46],
                [k * 101, 16],
              ],
              5,
            ),
            { width: 2.2, head: 9 },
          ),
        ]),
        pen(bow(5.9, 132, 228), 1.1),
        pen(inner, 2.2, { land: 0.05, lift: 0.05 }),
        pen(frown, 3.4, { land: 0.08, lift: 0.08 }),
        bracket([0, 45], [0, 16]),
        bracket([0, 88], [0, 45]),
        note('bottom', 'groove, 6 to 7 mm'),
        word([8, 72], '1.5 to 2 mm', { anchor: 'start' }),
        word([8, 35], '1 to 1.5 mm', { anchor: 'start' }),
        strong(note('bl', 'pocket', [-98, 80])),
        strong(note('br', 'pocket', [98, 80])),
        word([-157, 52], 'limbus', { anchor: 'start', to: spot(5.92, 232) }),
        word([0, -46], 'inside 8 to 9 mm'),
        note('tl', 'inner lip', spot(4.75, 222)),
      ];
    },
  ),

  wallScene(
    'tunnel-heel-down',
    'Half the thickness, and the heel goes down at the limbus',
    'Cross-section of the wall of the eye. The cornea rises more steeply than the sclera. The blade comes in through the groove and lies half-way through the thickness. At the limbus the heel of the blade is lowered, so that its tip turns up and follows the dome of the cornea. A blade that keeps straight on, dashed, enters the chamber near the limbus.',
    () => {
      const half = THICK * 0.48;
      const heel = place(GROOVE - 0.28, -0.16);
      const straight = above(23);
      const leaves = place(0.28, half + 0.08);
      return [
        wallOfEye(),
        flat([
          place(GROOVE, -0.06),
          place(GROOVE + 0.06, half),
          place(GROOVE - 0.05, half),
          place(GROOVE - 0.3, -0.06),
        ]),
        pen([place(GROOVE, 0), place(GROOVE + 0.04, half)], 2),
        pen([place(GROOVE - 0.28, 0), place(GROOVE - 0.02, half + 0.06)], 1.6),
        bladeOf([add(heel, [2, -7]), ...layer(half - 0.07, GROOVE + 0.06, 0, 10)], place(0.18, half), [
          add(heel, [2, 5]),
          ...layer(half + 0.07, GROOVE + 0.02, 0, 10),
        ]),
        handle(heel, add(heel, [-62, -26])),
        arrow(layer(half, 0.34, 1.75, 10), { width: 2.8, head: 11 }),
        wrongWay([leaves, add(leaves, times(straight, perMm(0.7))), add(leaves, times(straight, perMm(1.35)))]),
        arrow([add(heel, [-14, -54]), add(heel, [-11, -34]), add(heel, [-8, -13])], { width: 2.8, head: 10 }),
        limbusTick(),
        strong(word(add(heel, [-16, -62]), 'heel down')),
        strong(word([48, -54], ['into clear cornea,', 'along the dome'], { to: place(1.1, half - 0.06) })),
        word([-36, 14], 'limbus', { to: place(0, -0.14) }),
        note('br', ['straight on: the', 'chamber, too early'], add(leaves, times(straight, perMm(1.2)))),
        note('bl', 'half the thickness', place(GROOVE + 0.5, half + 0.1)),
        word([48, 152], 'iris', { anchor: 'end' }),
      ];
    },
  ),
];
