import { at, LIMBUS, MAIN, PORT, ringOf, round, sector, topEye } from '../anatomy/top';
import { back, entry, irisShape, lensOf, mm, run, sectionEye } from '../anatomy/section';
import { bent, probe } from '../instruments/section';
import { range, spline } from '../pencil/curves';
import { arrow, fibre, hair, keepOut, line, note, pen, strong, viscoelastic, wrongWay } from '../pencil/marks';
import { add, type Point } from '../pencil/points';
import { sectionScene, topScene, type Scene } from '../scene';

export const kindsOfChamber: readonly Scene[] = [
  topScene(
    'eye-zonules-loose',
    'A ring at the equator, before the next pull',
    'The eye from above, without the iris. In one sector, hatched, the zonules are missing, and elsewhere they hold the bag. A capsular tension ring, drawn strong, lies in the bag at its equator and bridges the sector. The edge of the opening is whole.',
    () => [
      ringOf(LIMBUS, 2.1),
      topEye({ iris: 0, pupil: 3.3, wounds: 'clear' }),
      fibre(
        range(32, 298, 88, (a): Point[] => [at(4.78, a), at(5.55, a + 1)]),
        { sharp: true },
      ),
      keepOut([sector(4.85, 5.6, 304, 386)], 38, 4.6),
      ringOf(4.75, 1.5),
      ringOf(2.6, 2.2),
      pen(round(4.5, 152, 492), 3.4, { land: 0.04, lift: 0.04, accent: true }),
      hair(round(4.3, 156, 488)),
      note('tl', ['hatched:', 'zonules missing'], at(5.2, 326)),
      strong(note('bl', ['ring at the', 'equator'], at(4.5, PORT + 6))),
      note('br', ['opening', 'whole'], at(2.6, MAIN + 12)),
    ],
  ),

  sectionScene(
    'eye-shallow',
    'Deepened before the larger blade comes',
    'Cross-section. The lens stands far forwards, the iris is bowed, and the chamber is shallow. A cannula through the side port on the {left} deepens it first with viscoelastic, drawn as dots. The larger blade on the {right} is only dashed: it would meet iris and lens.',
    () => {
      const lens = lensOf({ apex: 2.25, radius: 8.6, pole: 7.3, equator: 4.95 });
      return [
        viscoelastic(
          [
            ...run(back, -4.7, 2.2, 18),
            mm(1.4, 1.6),
            ...run((x) => lens.anterior(x) - 0.14, 0.8, -3.2, 10),
            mm(-4.6, 2.75),
          ],
          5.2,
          true,
        ),
        sectionEye(lens, { hang: -0.55 }),
        probe(mm(-2.0, 1.75), entry(-1), 5),
        arrow([mm(0.5, 1.5), mm(1.4, 1.55), mm(2.5, 1.75)], { width: 2.4, head: 9 }),
        wrongWay([add(entry(), [34, -14]), add(entry(), [2, 2]), mm(3.7, 3.0)]),
        strong(note('bl', ['deepen before', 'you enter'], mm(-2.4, 1.95))),
        note('br', ['larger blade:', 'not yet'], mm(4.2, 2.82)),
        note('tl', 'side port', add(entry(-1), [-4, -4])),
      ];
    },
  ),

  sectionScene(
    'eye-deep',
    'The iris lifted off the rim',
    'Cross-section. The chamber has plunged: the lens lies far back, and on the {right} the iris is bowed back and lies on the rim of the opening like a valve. On the {left} a spatula has gone under the edge of the iris and lifts it off the rim, along the arrow. Irrigation stays low.',
    () => {
      const lens = lensOf({ apex: 4.7, radius: 13, pole: 8.6, backRadius: 6.6, equator: 6.1 });
      const q = (k: 1 | -1) => (x: number, y: number) => mm(k * x, y);
      const right = q(1);
      const left = q(-1);
      const held = [
        right(5.8, 3.86),
        right(4.9, 4.35),
        right(3.9, 4.98),
        right(3.2, 4.98),
        right(3.9, 5.2),
        right(4.9, 4.66),
        right(5.75, 4.1),
      ];
      const lifted = [
        left(5.8, 3.86),
        left(4.9, 3.92),
        left(3.9, 3.98),
        left(3.2, 3.8),
        left(3.9, 4.24),
        left(4.9, 4.2),
        left(5.75, 4.1),
      ];
      return [
        sectionEye(lens, { open: 3.0, iris: false }),
        irisShape(held, 1),
        irisShape(lifted, -1),
        bent(
          [add(entry(-1), [-56, -25]), entry(-1), mm(-3.4, 2.9), mm(-2.6, 3.7), mm(-3.1, 4.34), mm(-4.2, 4.42)],
          4.6,
        ),
        line([...run((x) => lens.anterior(x) - 0.02, 2.7, 3.4, 4)], { dash: 'none' }),
        arrow([mm(-3.6, 5.35), mm(-3.6, 4.95), mm(-3.6, 4.5)], { width: 2.8, head: 9 }),
        pen(spline([mm(3.05, 4.9), mm(3.4, 5.18), mm(3.9, 5.3)], 4), 1.4),
        strong(note('bl', ['iris lifted', 'off the rim'], mm(-3.6, 4.75))),
        note('br', ['iris on the rim:', 'a valve'], mm(3.4, 5.0)),
        note('tl', 'spatula', mm(-3.0, 3.2)),
      ];
    },
  ),
];
