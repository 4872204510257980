import { at, MAIN, OPENING, ringOf, round, topEye } from '../anatomy/top';
import { haptic, opticOf } from '../instruments/implant';
import { hook } from '../instruments/top';
import { arrow, dot, fixed, flat, note, outline, strong } from '../pencil/marks';
import { topScene, type Scene } from '../scene';

export const trailingHapticScenes: readonly Scene[] = [
  topScene(
    'iol-trailing-loop',
    'Second haptic turned in, not pushed',
    'The eye from above. The optic lies in the opening, the first haptic is in the bag, drawn as a dashed line. The second haptic is bent in towards the optic, so that it passes under the edge of the opening. A hook at its root turns the lens clockwise, along the arrow. Nothing is pushed straight towards the far zonules.',
    () => [
      topEye({ iris: 0, pupil: 3.7 }),
      fixed([
        flat(opticOf([0, 2])),
        outline(opticOf([0, 2]), 1.8),
        haptic({ turn: 0, optic: [0, 2] }),
        haptic({ turn: 180, optic: [0, 2], reach: 0.62 }, { covered: false, accent: true }),
        arrow(round(2.3, 196, 262), { width: 3, head: 11 }),
      ]),
      ringOf(OPENING, 2.2),
      hook(at(2.85, 180), MAIN, 1),
      fixed([
        dot(at(3.05, 180), 4, 'mark'),
        strong(note('bl', ['turned clockwise,', 'not pushed'], at(2.35, 232))),
        note('tl', ['first haptic', 'in the bag'], at(4.42, 292)),
        note('tr', ['second haptic,', 'bent in'], at(3.6, 96)),
      ]),
    ],
  ),
];
