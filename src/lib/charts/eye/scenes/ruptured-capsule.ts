import { back, entry, lensOf, mm, run, sectionEye, type Lens } from '../anatomy/section';
import { bent, phacoTip, probe } from '../instruments/section';
import { loop, spline } from '../pencil/curves';
import {
  area,
  arrow,
  cross,
  dot,
  hair,
  hatch,
  line,
  note,
  outline,
  pen,
  strong,
  viscoelastic,
  type Marks,
} from '../pencil/marks';
import { add, type Point } from '../pencil/points';
import { sceneOf, sectionScene, type Scene } from '../scene';

const lens = lensOf({ apex: 3.75, radius: 16, pole: 7.2, backRadius: 7.2 });

/** The bag with a hole in its back, from one place to another in mm. */
function torn({ anterior, posterior, rim }: Lens, from: number, to: number): Marks {
  return ([-1, 1] as const).map((side) => {
    const end = side < 0 ? from : to;
    return pen(
      [
        mm(side * 2.5, anterior(2.6) - 0.09),
        ...run(anterior, side * 2.6, side * 4.2, 8),
        ...rim(side).slice(1),
        ...run(posterior, side * 4.2, end, 12).slice(1),
        mm(end - side * 0.12, posterior(end) + 0.16),
      ],
      1.8,
      { land: 0.04, lift: 0.04 },
    );
  });
}

const piece = (x: number, y: number): Point[] =>
  loop([mm(x - 0.7, y), mm(x, y - 0.45), mm(x + 0.75, y - 0.1), mm(x + 0.45, y + 0.5), mm(x - 0.4, y + 0.5)], 5);
const solid = (shape: readonly Point[]): Marks => [area(shape), hatch(shape, 20, 4.4), outline(shape, 1.8)];
const outside = (side: 1 | -1): Point => add(entry(side), [side * 56, -25]);

export const rupturedCapsuleScenes: readonly Scene[] = [
  sectionScene(
    'rehearsal-rupture',
    'Viscoelastic first, and only then the tip comes out',
    'Cross-section. The capsule has a hole in its back. The tip is still in the eye, and the chamber is full. A cannula through the side port on the {left} lays viscoelastic, drawn as dots, over the hole until it holds back what lies behind. Only after that does the tip come out, on the {right}.',
    () => [
      viscoelastic(
        [...run((x) => lens.posterior(x) - 1.5, -3.0, 3.4, 14), ...run((x) => lens.posterior(x) + 0.1, 3.2, -2.8, 14)],
        4.6,
        true,
      ),
      sectionEye(lens, { open: 2.6, capsule: false }),
      torn(lens, -0.4, 1.7),
      phacoTip(mm(1.5, 3.55), mm(4.95, 2.0), 34),
      bent([outside(-1), entry(-1), mm(-3.2, 2.9), mm(-1.6, 4.2), mm(-0.6, 5.3)], 5),
      strong(note('bl', ['OVD over the', 'hole first'], mm(-0.9, 5.9))),
      note('br', ['the hole,', 'held shut'], mm(0.9, 7.05)),
      note('tr', ['tip stays in', 'until then'], mm(2.6, 2.9)),
    ],
  ),

  sectionScene(
    'rehearsal-rupture-vitreous',
    'Cut low, infuse high, each through its own port',
    'Cross-section. A strand of vitreous has come forward through the hole in the capsule. The cutter lies low, behind the hole, its opening forwards, and has come in on the {right}. The infusion lies high in the chamber and comes through a port of its own on the {left}. Nothing pulls on the strand.',
    () => {
      const strand = [
        spline([mm(0.4, 8.0), mm(0.2, 6.6), mm(-0.5, 5.2), mm(-0.9, 3.9), mm(-1.5, 3.0)], 6),
        spline([mm(0.9, 8.0), mm(0.65, 6.7), mm(0.1, 5.5), mm(-0.4, 4.6)], 6),
      ];
      return [
        sectionEye(lens, { open: 2.6, capsule: false }),
        torn(lens, -0.7, 1.9),
        hair(strand),
        line(spline([mm(-0.6, 8.2), mm(0.2, 7.3), mm(0.6, 7.5), mm(1.6, 8.1)], 5), { dash: 'dot' }),
        probe(mm(0.95, 7.35), mm(5.0, 2.2), 8, { square: true }),
        dot(mm(0.98, 7.0), 3.4),
        probe(mm(-3.2, 2.35), entry(-1), 7),
        ([0, 0.5] as const).map((y) =>
          arrow([mm(-2.7, 2.2 + y), mm(-2.0, 2.2 + y), mm(-1.2, 2.3 + y)], { accent: false, width: 2, head: 8 }),
        ),
        strong(note('br', ['cut low,', 'behind the hole'], mm(1.2, 7.1))),
        note('tl', ['infuse high,', 'a port of its own'], mm(-3.0, 2.25)),
        note('bl', ['vitreous,', 'never pulled'], mm(-0.7, 4.6)),
      ];
    },
  ),

  sceneOf([-160, -34, 320, 300], [-148, -26, 296, 280])(
    'rehearsal-dropped-nucleus',
    'A piece that has gone back is not followed',
    'Cross-section with more of the vitreous. A piece of nucleus has gone through the hole in the capsule and lies far back. A loop and a jet of fluid that would go after it are dashed and crossed out. The wound on the {right} is closed, and the chamber is full.',
    () => {
      const gone = piece(0.8, 10.4);
      return [
        viscoelastic([...run(back, -4.4, 4.4, 18), ...run((x) => lens.anterior(x) - 0.2, 2.4, -2.4, 8)], 6),
        sectionEye(lens, { open: 2.6, capsule: false }),
        torn(lens, -1.0, 2.1),
        solid(gone),
        line(spline([mm(4.6, 2.6), mm(2.6, 5), mm(1.4, 7.6), mm(1.1, 9.6)], 6), { dash: 'dash' }),
        line(spline([mm(-4.4, 2.7), mm(-2.4, 5.2), mm(-0.6, 7.8), mm(0.1, 9.7)], 6), { dash: 'dash' }),
        cross(mm(1.75, 6.8), 7),
        cross(mm(-1.25, 6.8), 7),
        pen([add(entry(), [-6, -7]), add(entry(), [7, 3])], 3.4, { accent: true }),
        note('tl', ['chamber held', 'with OVD'], mm(-2.6, 2.2)),
        strong(note('br', ['do not', 'follow it'], mm(1.5, 10.4))),
        note('tr', 'wound closed', add(entry(), [3, -4])),
      ];
    },
  ),
];
