import { at, MAIN, PORT, round, sector, topEye } from '../anatomy/top';
import { hook, rod } from '../instruments/top';
import { range, spline } from '../pencil/curves';
import { area, dot, edge, fibre, hatch, line, note, outline, pen, strong, viscoelastic } from '../pencil/marks';
import { from, unit, type Point } from '../pencil/points';
import { topScene, type Scene } from '../scene';

export const woundEvents: readonly Scene[] = [
  topScene(
    'rehearsal-burn',
    'A white lip: energy off at once',
    'The eye from above, at the main wound. The lips of the wound around the needle are white and shrunken, drawn hollow with folds running from them into the cornea. In front of the tip the viscoelastic has turned milky. Nothing is finished first: energy goes off, and irrigation stays on.',
    () => {
      const milky = spline([at(0.2, 20), at(0.95, 340), at(1.3, 300), at(0.9, 250), at(0.15, 210), at(0.2, 20)], 6);
      const tip = at(0.35, MAIN);
      const u = unit(tip);
      const p = (along: number, aside: number) => from(tip, u, along, aside);
      const lip = (k: 1 | -1): Point[] => [
        p(66, k * 13),
        p(80, k * 24),
        p(106, k * 30),
        p(120, k * 25),
        p(112, k * 14),
      ];
      return [
        topEye({ iris: 96 }),
        area(milky, 'accent-paper'),
        hatch(milky, 30, 4),
        pen([p(0, 8), p(150, 11)], 1.6),
        pen([p(0, -8), p(150, -11)], 1.6),
        edge([p(40, 12), p(36, 0), p(40, -12)], 1.4),
        edge([p(0, 8), p(5, 0), p(0, -8)], 1.5),
        ([1, -1] as const).map((k) => [area(lip(k)), outline(lip(k), 3, true)]),
        fibre(
          ([-1, 1] as const).flatMap((k) =>
            [0, 1, 2, 3].map((i): Point[] => [p(72 + i * 10, k * (24 + i * 2)), p(58 + i * 12, k * (46 + i * 4))]),
          ),
        ),
        strong(note('br', ['white lip:', 'energy off'], p(98, 27))),
        note('tl', ['milky in front', 'of the tip'], at(0.9, 300)),
        note('tr', ['folds in', 'the cornea'], p(70, -44)),
      ];
    },
  ),

  topScene(
    'rehearsal-leak',
    'One radial stitch, equal bites, then the test',
    'The eye from above. One radial stitch, drawn strong, crosses the main wound at the lower {right}. Its bites on both sides of the outer lip are equal, as the measure beside it shows. Through the other port the chamber is formed, and then the wound is dried, pressed and watched.',
    () => {
      const u = unit(at(1, MAIN));
      const middle = at(5.6, MAIN);
      const p = (along: number, aside: number) => from(middle, u, along, aside);
      return [
        topEye({ iris: 112, pupil: 2.9 }),
        pen([p(-26, 0), p(22, 0)], 3.4, { land: 0.04, lift: 0.04, accent: true }),
        dot(p(-26, 0), 3.2),
        dot(p(22, 0), 3.2),
        line(
          [
            [p(-26, -12), p(-26, -20)],
            [p(-26, -16), p(-2, -16)],
            [p(-2, -12), p(-2, -20)],
            [p(-2, -16), p(22, -16)],
            [p(22, -12), p(22, -20)],
          ],
          { sharp: true },
        ),
        rod(at(3.4, PORT), PORT, 0.4),
        strong(note('tr', ['equal bites,', 'knot buried'], p(0, -18))),
        note('br', ['then tested,', 'dried and watched'], p(24, 4)),
        note('bl', ['chamber', 'formed'], at(3.5, PORT)),
      ];
    },
  ),

  topScene(
    'rehearsal-iridodialysis',
    'The root of the iris has torn: stop and fill',
    'The eye from above, with the scleral tunnel at the seat. On one side the iris has come off its root, a dark crescent, and there the pupil is flat, like a letter D. Everything has let go of the iris. A cannula through the side port on the {left} fills the chamber gently.',
    () => {
      const pupil = range(0, 354, 59, (a) => {
        const off = Math.abs(a - 35);
        return at(off < 46 ? Math.min(3.3, 2.3 / Math.cos((off * Math.PI) / 180)) : 3.3, a);
      });
      const crescent = [
        ...round(5.75, 8, 62),
        ...range(62, 8, 10, (a) => at(5.7 - 1.15 * Math.sin(((a - 8) / 54) * Math.PI), a)),
      ];
      return [
        topEye({ iris: 0, pupil: 3.2, wounds: 'tunnel' }),
        area(round(3.35).slice(0, -1)),
        fibre(range(70, 360, 64, (a): Point[] => [at(3.9, a), at(5.5, a)])),
        fibre(range(2, 66, 16, (a): Point[] => [at(3.5, a), at(4.5, a)])),
        area(pupil),
        outline(pupil, 1.8),
        area(crescent, 'ink'),
        outline(crescent, 2.4, true),
        hook(at(4.2, 262), 268, -1),
        viscoelastic([sector(3.6, 5.4, 232, 258)], 5.4),
        strong(note('tr', ['torn at the root:', 'stop, and fill'], at(5.2, 36))),
        note('tl', ['pupil flat', 'on that side'], at(2.1, 34)),
        note('bl', 'gently filled', at(4.6, 246)),
      ];
    },
  ),
];
