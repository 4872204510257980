import { at, MAIN, OPENING, PORT, round, sector, topEye } from '../anatomy/top';
import { forceps, hook, rod } from '../instruments/top';
import { range, spline } from '../pencil/curves';
import {
  area,
  arrow,
  dot,
  edge,
  fibre,
  hatch,
  keepOut,
  line,
  note,
  outline,
  pen,
  strong,
  viscoelastic,
  wrongWay,
} from '../pencil/marks';
import { add, from, unit, type Point } from '../pencil/points';
import { topScene, type Scene } from '../scene';
import { foldedFlap } from './flap';

export const eventsFromAbove: readonly Scene[] = [
  topScene(
    'rehearsal-tear-out',
    'Unfolded, pulled back, and then in',
    'The eye from above. The edge of the tear has run out towards the equator. The flap is laid flat again over the place it came from. The forceps hold it close to the tear, and the arrow shows the pull: first backwards along the circle, in the plane of the capsule, then in towards the middle. Pulling on, dashed, takes it further out.',
    () => {
      const torn = range(270, 405, 26, (a) => at(OPENING + Math.max(0, (a - 366) / 39) ** 1.5 * 1.05, a));
      const tear = at(OPENING + 1.05, 405);
      return [
        topEye({ iris: 0 }),
        keepOut([sector(3.9, 4.75, 20, 84)], 38, 5.4),
        line(round(OPENING, 366, 630), { dash: 'dot' }),
        foldedFlap(torn.slice(0, -3)),
        pen(torn, 2.7, { land: 0.04, lift: 0.02 }),
        wrongWay(spline([tear, at(4.1, 54), at(4.7, 62)])),
        dot(tear, 4.2),
        forceps(at(3.0, 50), MAIN),
        arrow(spline([at(2.95, 44), at(2.6, 24), at(2.0, 8), at(1.2, 356), at(0.4, 320)]), { width: 3.2, head: 12 }),
        strong(note('tl', ['pull back,', 'then in'], at(1.9, 6))),
        note('tr', ['edge run out'], add(tear, [3, -3])),
        note('bl', ['flap laid', 'flat'], at(1.6, 300)),
        note('br', ['pulling on:', 'further out'], at(4.5, 60)),
      ];
    },
  ),

  topScene(
    'rehearsal-dialysis',
    'Support before going on',
    'The eye from above, without the iris. In one sector the zonules have given way and the edge of the bag has come in. Viscoelastic, drawn as dots, fills the space beside it and holds back the vitreous. A hook holds the edge of the opening on that side. The nucleus is not turned.',
    () => {
      const bag = range(0, 354, 59, (a) => at(4.75 - 0.95 * Math.exp(-(((((a + 180) % 360) - 180) / 34) ** 2)), a));
      const rim = range(0, 354, 59, (a) => at(2.6 - 0.25 * Math.exp(-(((((a + 180) % 360) - 180) / 34) ** 2)), a));
      return [
        topEye({ iris: 0, pupil: 5.6 }),
        fibre(
          range(48, 312, 88, (a): Point[] => [at(4.8, a), at(5.5, a + 1)]),
          { sharp: true },
        ),
        viscoelastic(
          [
            [
              ...range(-38, 38, 16, (a) => at(5.5, a)),
              ...range(38, -38, 16, (a) => at(4.8 - 0.95 * Math.exp(-((a / 34) ** 2)), a)),
            ],
          ],
          4.6,
        ),
        outline(bag, 1.6),
        outline(rim, 2.2),
        pen([at(8, 2), at(5.9, 2), at(2.6, 0), at(2.2, 6)], 3.2, { land: 0.02, lift: 0.1, accent: true }),
        dot(at(2.35, 3), 4, 'mark'),
        strong(note('tr', ['support before', 'going on'], at(2.5, 8))),
        note('tl', ['zonules gone,', 'OVD over it'], at(4.6, 338)),
        note('bl', 'edge of the bag', at(4.75, PORT - 6)),
        note('br', ['no turning'], at(2.7, 150)),
      ];
    },
  ),

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
