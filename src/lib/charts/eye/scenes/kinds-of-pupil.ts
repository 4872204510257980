import { at, LIMBUS, MAIN, OPENING, PORT, ringOf, round, sector, topEye } from '../anatomy/top';
import { haptic, opticOf } from '../instruments/implant';
import { hook, sleeved } from '../instruments/top';
import { chance } from '../pencil/chance';
import { range, spline } from '../pencil/curves';
import { area, arrow, fibre, fixed, hair, line, note, outline, pen, strong, viscoelastic } from '../pencil/marks';
import { from, times, unit, type Point } from '../pencil/points';
import { topScene, type Scene } from '../scene';

const CORNERS = [MAIN, PORT, 315, 45] as const;
/** A pupil held by four hooks: corners at the hooks, sides a little hollow. */
const diamond = (): Point[] =>
  CORNERS.flatMap((a) => [at(3.3, a), at(2.75, a + 14), at(2.42, a + 45), at(2.75, a + 76)]);

export const kindsOfPupil: readonly Scene[] = [
  topScene(
    'eye-pupil-small',
    'Four hooks, one of them under the main wound',
    'The eye from above. A small pupil is held open by four hooks, which make a diamond as seen from the wound. One of them, marked, lies beneath the main wound at the lower {right}, so that it keeps the iris away from the instruments that pass there. The pupil is no wider than it has to be, and the capsule is not caught.',
    () => [
      topEye({ iris: 0, pupil: 2 }),
      fibre(
        range(0, 354, 59, (a): Point[] => [at(3.9 - 0.4 * Math.cos(((a - 45) * 4 * Math.PI) / 360), a), at(5.7, a)]),
      ),
      area(diamond()),
      outline(diamond(), 2),
      hair(spline([...diamond().map((p) => times(p, 0.94)), times(at(3.3, MAIN), 0.94)], 3)),
      CORNERS.map((a) => {
        const end = at(3.3, a);
        const u = unit(at(1, a));
        const accent = a === MAIN;
        return [
          pen([from(end, u, 96), from(end, u, 4), from(end, u, -4), from(end, u, -5, 5)], accent ? 3.2 : 2.2, {
            land: 0.02,
            lift: 0.1,
            accent,
          }),
          pen([from(end, u, 58, -7), from(end, u, 58, 7)], 4, { accent }),
        ];
      }),
      strong(note('br', ['one under', 'the wound'], at(4.6, MAIN))),
      note('tl', ['no wider', 'than needed'], at(2.45, 0)),
      note('bl', ['iris held,', 'not the capsule'], at(3.25, PORT)),
    ],
  ),

  topScene(
    'eye-floppy-iris',
    'Viscoelastic on the iris, and little flow',
    'The eye from above. The iris is slack and lies in waves. Viscoelastic, drawn as dots, covers it next to both wounds and holds it back there. The tip works in the middle, away from the edge of the pupil. The pupil has not been stretched.',
    () => {
      const next = chance(5);
      const pupil = range(0, 350, 35, (a) => at(2.75 + 0.22 * Math.sin((a * Math.PI) / 30) + 0.1 * next(), a));
      const folds = range(0, 348, 29, (a): Point[] =>
        spline([at(3.2, a), at(3.8, a + 5), at(4.4, a - 3), at(5.0, a + 4), at(5.6, a)], 4),
      );
      return [
        topEye({ iris: 0, pupil: 2.7 }),
        line(folds),
        area(pupil),
        outline(pupil, 1.8),
        ringOf(LIMBUS, 0.6),
        viscoelastic([sector(3.2, 5.7, MAIN - 24, MAIN + 24)], 5.2, true),
        viscoelastic([sector(3.2, 5.7, PORT - 15, PORT + 15)], 5.2, true),
        sleeved(at(0.5, 120), MAIN),
        hook(at(0.9, 262), PORT, -1),
        strong(note('bl', ['OVD on the iris', 'at the wounds'], at(4.7, PORT + 8))),
        note('tl', ['slack iris,', 'not stretched'], at(4.4, 318)),
        note('tr', ['low flow, tip', 'in the middle'], at(0.4, 60)),
      ];
    },
  ),

  topScene(
    'eye-toric',
    'Short of its axis until the OVD is out',
    'The eye from above. Two marks on the limbus, made with the patient sitting up, give the axis. The marks on the toric lens still lie a little short of it. The last turn, clockwise, follows only when the OVD behind the lens is out.',
    () => {
      const [axis, short] = [56, 38];
      const ends = [0, 180] as const;
      return [
        topEye({ iris: 96, pupil: 3.6 }),
        // A lens turns clockwise only, whichever hand holds the hook.
        fixed([
          [short - 60, short + 120].map((turn) => haptic({ turn })),
          outline(opticOf(), 1.8),
          ringOf(OPENING, 1.4),
          ends.map((more) => pen([at(2.1, short + more), at(2.92, short + more)], 3.4)),
          line([at(5.6, axis), at(5.6, axis + 180)], { dash: 'dot', sharp: true }),
          ends.map((more) => pen([at(5.3, axis + more), at(6.7, axis + more)], 4)),
          arrow(round(4.4, short - 8, axis - 3), { width: 3, head: 10 }),
          strong(note('tl', ['short of the axis', 'until OVD is out'], at(4.4, short - 6))),
          note('br', ['mark made', 'sitting up'], at(6.0, axis + 2)),
          note('bl', ['marks on', 'the lens'], at(2.6, short + 180)),
        ]),
      ];
    },
  ),
];
