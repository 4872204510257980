import { itemAt } from '../../../item-at';
import { annulus, at, MAIN, OPENING, PORT, ringOf, round, topEye, wound } from '../anatomy/top';
import { entry, lensOf, mm, run, sectionEye } from '../anatomy/section';
import { bent, phacoTip } from '../instruments/section';
import { hook, sleeved } from '../instruments/top';
import { loop, spline } from '../pencil/curves';
import { area, arrow, flat, hair, hatch, keepOut, line, note, outline, pen, strong } from '../pencil/marks';
import { add } from '../pencil/points';
import { sectionScene, topScene, type Scene } from '../scene';

export const segmentScenes: readonly Scene[] = [
  topScene(
    'segment-safe-place',
    'Tip in the middle, its opening in view',
    'The eye from above. The tip stays in the middle with its opening turned up, in view. A segment comes to it along the arrow, fed from behind by the second instrument. The other segments reach out under the rim, dashed. The region out by the capsule is hatched: the tip does not go there.',
    () => {
      const piece = loop([at(0.62, 316), at(2.1, 288), at(2.42, 300), at(2.5, 316), at(2.42, 332), at(2.1, 344)], 5);
      const beds = (
        [
          [48, 112],
          [158, 216],
        ] as const
      ).map(([a, b]) => {
        const bed = [at(0.5, (a + b) / 2), ...round(OPENING, a, b)];
        return [
          flat(bed),
          line([itemAt(bed, 1), itemAt(bed, 0), itemAt(bed, bed.length - 1)], { sharp: true }),
          hatch(bed, 80, 6),
          line([[at(2.6, a), at(3.6, a + 3)], round(3.6, a + 3, b - 3), [at(3.6, b - 3), at(2.6, b)]], {
            dash: 'dash',
          }),
        ];
      });
      return [
        topEye({ iris: 0, wounds: 'none' }),
        keepOut(annulus(2.72, 4.6), 38, 6.2),
        wound(MAIN, 2.4),
        wound(PORT, 1.1, 1.1),
        beds,
        ringOf(OPENING, 2),
        area(piece),
        hatch(piece, 20, 6),
        outline(piece, 1.7),
        sleeved(at(0.12, 135), MAIN),
        hook(at(2.42, 291), PORT, -1),
        arrow([at(2.2, 318), at(1.5, 318), at(0.5, 322)], { width: 3.4, head: 12 }),
        note('tr', ['opening up,', 'in view'], at(0.18, 60)),
        strong(note('tl', ['the piece', 'comes to the tip'], at(2.2, 330))),
        note('bl', ['hatched:', 'not here'], at(4.0, 214)),
      ];
    },
  ),

  sectionScene(
    'segment-last',
    'The last piece, with a guard behind it',
    'Cross-section. One piece of nucleus is held at the tip in the plane of the iris. The second instrument lies behind the tip, between it and the capsule at the back. The empty bag hangs in slack folds, and its back comes forward as soon as the piece clears.',
    () => {
      const lens = lensOf({ apex: 3.75, radius: 16, pole: 7.0, backRadius: 7.6, equator: 5.2 });
      const piece = loop([mm(-1.6, 3.5), mm(-0.4, 3.25), mm(0.5, 3.55), mm(0.5, 4.2), mm(-0.6, 4.6), mm(-1.6, 4.2)], 5);
      const slack = (x: number) => lens.posterior(x) - 0.62 * Math.exp(-((x / 1.7) ** 2));
      return [
        sectionEye(lens, { open: 2.6 }),
        hair([
          ...([-1, 1] as const).flatMap((k) => [
            spline([mm(k * 4.5, 5.1), mm(k * 4.0, 5.32), mm(k * 3.4, 5.3), mm(k * 2.9, 5.55)], 4),
            spline([mm(k * 4.3, 5.7), mm(k * 3.7, 5.82), mm(k * 3.1, 6.02)], 4),
          ]),
        ]),
        area(piece),
        hatch(piece, 20, 4.6),
        outline(piece, 1.8),
        phacoTip(mm(0.62, 3.82), entry(), 40),
        bent(
          [
            add(entry(-1), [-56, -25]),
            entry(-1),
            mm(-3.6, 2.9),
            mm(-2.25, 3.7),
            mm(-1.5, 4.95),
            mm(-0.4, 5.4),
            mm(0.95, 5.48),
          ],
          5,
        ),
        pen(run(slack, -2.9, 2.9, 16), 1.8, { land: 0.25, lift: 0.25, accent: true }),
        arrow([mm(0.2, 7.0), mm(0.2, 6.5)], { width: 2.4, head: 8 }),
        note('bl', ['second instrument', 'on guard'], mm(-0.9, 5.28)),
        strong(note('br', ['the capsule', 'comes forward'], mm(1.4, 6.45))),
        note('tl', ['last piece, in the', 'plane of the iris'], mm(-0.9, 3.6)),
      ];
    },
  ),
];
