import { groove, HALF, plane, type Depth } from '../instruments/groove';
import { GROOVE, inIris, layer, limbusTick, place, THICK, wallIris, wallOfEye } from '../anatomy/wall';
import { bent } from '../instruments/section';
import { bladeOf, handle } from '../instruments/tunnel-blade';
import { area, arrow, bracket, dot, hatch, note, outline, pen, strong, word, wrongWay } from '../pencil/marks';
import { spline } from '../pencil/curves';
import { add, type Point } from '../pencil/points';
import { wallScene, type Scene } from '../scene';

export const outerWall: readonly Scene[] = [
  wallScene(
    'eye-thin-sclera',
    'In several light strokes, the floor seen after each',
    'Cross-section of the wall of the eye. The sclera behind the limbus is thinner than usual, as the bracket shows. The groove is being deepened in light strokes, dotted one below the other, and its floor has not passed half of this thinner wall. The blade is only just at the surface.',
    () => {
      const thin = (q: number) => THICK - 0.3 / (1 + Math.exp((q + 0.5) * 6));
      const half = 0.24;
      const tip = place(GROOVE - 0.1, half);
      return [
        wallOfEye({ inner: thin, iris: false }),
        wallIris(),
        groove(half),
        [0.1, 0.17].map((d) => pen(layer(d, GROOVE - 0.24, GROOVE + 0.0, 3), 1, { land: 0.02, lift: 0.02 })),
        pen(layer(half, GROOVE - 0.17, GROOVE + 0.06, 3), 3.4, { land: 0.05, lift: 0.05, accent: true }),
        bladeOf([add(tip, [6, -46]), add(tip, [3, -20])], add(tip, [0, -12]), [
          add(tip, [-5, -46]),
          add(tip, [-3, -20]),
        ]),
        handle(add(tip, [0, -44]), add(tip, [-10, -100]), 11),
        bracket(place(GROOVE + 0.5, 0), place(GROOVE + 0.5, thin(GROOVE + 0.5)), true),
        limbusTick(),
        strong(note('bl', ['light strokes, the', 'floor seen each time'], place(GROOVE - 0.06, half + 0.03))),
        note('br', ['the wall,', 'thin here'], place(GROOVE + 0.52, 0.4)),
        word([-2, 26], 'limbus', { anchor: 'start', to: place(0, -0.14) }),
      ];
    },
  ),

  wallScene(
    'bridle-needle-flat',
    'Flat along the globe, under the muscle',
    'Cross-section of the wall of the eye. Forceps lift the muscle at its insertion off the sclera. The needle passes beneath the muscle flat along the globe. A needle whose point is turned down, dashed, would go into the sclera, which is thinnest here.',
    () => {
      const muscle = spline(
        [
          place(-2.7, -0.75),
          place(-2.2, -0.72),
          place(-1.6, -0.5),
          place(-1.15, -0.12),
          place(-1.05, 0),
          place(-1.35, -0.04),
          place(-1.8, -0.22),
          place(-2.3, -0.42),
          place(-2.75, -0.5),
        ],
        5,
      );
      const needle: Point[] = layer(-0.12, -2.45, -1.7, 8);
      return [
        wallOfEye({ groove: null, iris: false }),
        wallIris(),
        area(muscle),
        hatch(muscle, -34, 3.4),
        outline(muscle, 1.8),
        pen(needle, 4, { land: 0.02, lift: 0.3, accent: true }),
        arrow(layer(-0.13, -2.5, -1.42, 10), { width: 3.2, head: 11 }),
        wrongWay([place(-2.15, 0.02), place(-1.95, 0.3), place(-1.75, 0.62)]),
        bent([add(place(-1.4, -0.3), [22, -96]), add(place(-1.4, -0.3), [8, -44]), add(place(-1.4, -0.3), [0, -6])], 4),
        bent([add(place(-1.4, -0.3), [34, -92]), add(place(-1.4, -0.3), [18, -40]), add(place(-1.4, -0.3), [7, 0])], 4),
        limbusTick(),
        word([12, -56], ['muscle lifted', 'clear'], { anchor: 'start', to: add(place(-1.4, -0.3), [6, -22]) }),
        strong(note('bl', ['flat along', 'the globe'], place(-1.9, -0.1))),
        word([24, 12], 'limbus', { anchor: 'start', to: place(0, -0.14) }),
        note('br', ['point down:', 'into the sclera'], place(-1.82, 0.5)),
      ];
    },
  ),

  wallScene(
    'mwound-lip-pressed',
    'Pressed behind the groove, and watched',
    'Cross-section of the wall of the eye. The tunnel is closed. The sclera behind the groove is pressed gently, along the arrow, while the dry groove is watched; the place is marked. Fluid that wells up there comes from the chamber.',
    () => {
      const closed: Depth = (q) => HALF + Math.max(0, (q - 0.7) / 0.6) * (THICK - HALF);
      const sponge = [
        place(GROOVE - 0.62, -0.02),
        place(GROOVE - 0.5, -0.5),
        place(GROOVE - 0.62, -1.0),
        place(GROOVE - 1.0, -0.95),
        place(GROOVE - 0.92, -0.4),
      ];
      return [
        wallOfEye(),
        plane(closed, 1.28),
        pen([place(GROOVE, 0), place(GROOVE - 0.02, HALF)], 2),
        area(sponge),
        hatch(sponge, 20, 4.6),
        outline(sponge, 1.7),
        arrow([place(GROOVE - 0.25, -1.2), place(GROOVE - 0.42, -0.7), place(GROOVE - 0.5, -0.12)], {
          width: 3,
          head: 11,
        }),
        dot(place(GROOVE + 0.02, -0.03), 5, 'mark'),
        limbusTick(),
        strong(
          word([-70, -36], ['groove dry,', 'and watched'], {
            anchor: 'start',
            to: add(place(GROOVE + 0.02, -0.03), [4, -5]),
          }),
        ),
        note('bl', ['pressed', 'gently here'], place(GROOVE - 0.55, 0.02)),
        note('br', ['chamber', 'formed'], inIris(1.7, -0.5)),
        word([40, 4], 'limbus', { to: place(0, -0.14) }),
      ];
    },
  ),
];
