import { bow, conjunctiva, field, frown, LARGE, spot } from '../anatomy/ground';
import { range, spline } from '../pencil/curves';
import { bracket, hair, keepOut, line, note, outline, pen, strong, word } from '../pencil/marks';
import { type Point } from '../pencil/points';
import { sceneOf, type Scene } from '../scene';

const scene = sceneOf([-160, -62, 320, 222], [-130, -50, 260, 180]);

export const kindsOfSclera: readonly Scene[] = [
  scene(
    'eye-scarred-conjunctiva',
    'Beside the scar, and away from the bleb',
    'The lower part of the eye from above, with the surgeon below. A scar and a filtering bleb, hatched, lie on the {right}: no cut goes there. The peritomy and the planned groove, dotted, lie beside them, where the conjunctiva lifts off by itself.',
    () => {
      const bleb = spline(
        [spot(6.0, 116), spot(6.1, 138), spot(7.2, 140), spot(7.5, 130), spot(7.0, 119), spot(6.0, 116)],
        6,
      );
      return [
        field(150, 236),
        keepOut(bleb),
        outline(bleb, 1.8),
        conjunctiva(142, 150),
        conjunctiva(238, 248),
        pen(spline([spot(5.95, 236), spot(6.8, 238), spot(8.2, 230)], 6), 2.2, { accent: true }),
        pen(bow(6.0, 236, 152), 3, { land: 0.04, lift: 0.04, accent: true }),
        pen(spline([spot(5.95, 152), spot(6.8, 150), spot(8.2, 158)], 6), 2.2, { accent: true }),
        line(
          range(-3.6, 1.9, 20, (x): Point => [x * LARGE, 104 - 20 * (1 - ((x + 0.85) / 3.3) ** 2)]),
          { dash: 'dot' },
        ),
        strong(note('bl', ['beside the scar'], spot(6.3, 236))),
        note('br', ['bleb and scar:', 'no cut'], spot(6.7, 133)),
        word([-30, 116], 'groove'),
      ];
    },
  ),

  scene(
    'eye-nucleus-huge',
    'The inner opening measured against the nucleus',
    'The lower part of the eye from above, with the surgeon below. The outline of a very large nucleus, dashed, stands before the inner opening of the tunnel. The inner opening, drawn strong, is wider than the nucleus by about half a millimetre on each side, and wider than the groove outside.',
    () => {
      const edgeOf = (a: number): Point => [
        96 * Math.sin((a * Math.PI) / 180),
        -40 + 46 * Math.cos((a * Math.PI) / 180),
      ];
      return [
        field(122, 238),
        line(range(-96, 96, 32, edgeOf), { dash: 'dash' }),
        pen(bow(4.75, 241, 119), 3.4, { land: 0.04, lift: 0.04, accent: true }),
        pen(frown(3.9), 3.2, { land: 0.08, lift: 0.08 }),
        hair([spot(4.75, 239), spot(5.9, 236), [-101, 114]]),
        hair([spot(4.75, 121), spot(5.9, 124), [101, 114]]),
        bracket([-96, 34], [96, 34]),
        strong(note('tl', ['inner opening,', 'wider'], spot(4.78, 236))),
        word([0, 52], 'width of the nucleus'),
        note('bottom', 'groove, 7 to 8 mm'),
        word([0, -30], 'nucleus'),
      ];
    },
  ),
];
