import { groove, HALF, plane, type Depth } from '../instruments/groove';
import { GROOVE, layer, limbusTick, place, THICK, wallOfEye } from '../anatomy/wall';
import { arrow, dot, note, strong, word, wrongWay } from '../pencil/marks';
import { add } from '../pencil/points';
import { wallScene, type Scene } from '../scene';

export const tunnelEvents: readonly Scene[] = [
  wallScene(
    'rehearsal-buttonhole',
    'Deeper, and from the other side',
    'Cross-section of the wall of the eye. The first plane of the tunnel ran too shallow and has come through the roof, where a small hole is marked. A new plane, drawn strong, begins deeper in the groove and passes beneath the hole into clear cornea. The hole is not made larger.',
    () => {
      const shallow: Depth = (q) => HALF * 0.5 - Math.max(0, (q - GROOVE) / 1.0) * HALF * 0.52;
      const hole = place(GROOVE + 0.98, -0.02);
      return [
        wallOfEye(),
        groove(HALF + 0.1),
        plane(shallow, GROOVE + 0.94),
        dot(hole, 5.2, 'mark'),
        arrow(layer(HALF + 0.06, GROOVE + 0.1, 1.5, 22), { width: 3, head: 12 }),
        limbusTick(),
        word([-30, 2], ['hole in', 'the roof'], { anchor: 'end', to: add(hole, [-4, -5]) }),
        strong(note('br', ['deeper, from the', 'other side'], place(0.5, HALF + 0.12))),
        word([20, 6], 'limbus', { anchor: 'start', to: place(0, -0.14) }),
        note('bl', 'groove', place(GROOVE - 0.14, 0.1)),
      ];
    },
  ),

  wallScene(
    'rehearsal-premature-entry',
    'Leave it, and start shallower',
    'Cross-section of the wall of the eye. The first plane of the tunnel ran too deep and has come into the chamber close to the root of the iris, where it is marked. It is left alone. A new plane, drawn strong, starts shallower and goes on into clear cornea. To go deeper along the old line, dashed, would reach the iris.',
    () => {
      const deep: Depth = (q) => HALF + Math.max(0, (q - GROOVE) / 1.3) * (THICK - HALF + 0.02);
      const entryAt = place(GROOVE + 1.3, THICK + 0.02);
      return [
        wallOfEye(),
        groove(HALF + 0.06),
        plane(deep, GROOVE + 1.28),
        dot(entryAt, 5, 'mark'),
        wrongWay([add(entryAt, [5, 5]), add(entryAt, [22, 18]), add(entryAt, [42, 32])]),
        arrow(layer(HALF * 0.72, GROOVE + 0.12, 1.5, 22), { width: 3, head: 12 }),
        limbusTick(),
        strong(word([52, -54], ['start shallower'], { to: place(0.9, HALF * 0.6) })),
        note('bl', ['too early:', 'leave it, suture it'], add(entryAt, [-4, 4])),
        word([-36, 14], 'limbus', { to: place(0, -0.14) }),
        note('br', ['not on', 'this line'], add(entryAt, [34, 27])),
      ];
    },
  ),
];
