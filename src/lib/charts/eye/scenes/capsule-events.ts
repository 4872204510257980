import { at, MAIN, OPENING, PORT, round, sector, topEye } from '../anatomy/top';
import { forceps } from '../instruments/top';
import { range, spline } from '../pencil/curves';
import { arrow, dot, fibre, keepOut, line, note, outline, pen, strong, viscoelastic, wrongWay } from '../pencil/marks';
import { add, type Point } from '../pencil/points';
import { topScene, type Scene } from '../scene';
import { foldedFlap } from './flap';

export const capsuleEvents: readonly Scene[] = [
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
];
