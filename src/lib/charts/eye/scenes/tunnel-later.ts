import { at, fibres, ringOf, round, TUNNEL, TUNNEL_PORT, topEye } from '../anatomy/top';
import { haptic, opticOf } from '../instruments/implant';
import { rod, sleeved } from '../instruments/top';
import { range, spline } from '../pencil/curves';
import { arrow, dot, fixed, flat, line, note, outline, pen, strong } from '../pencil/marks';
import { topScene, type Scene } from '../scene';
import { cortexFibres } from './cortex';

export const openedTunnelScenes: readonly Scene[] = [
  topScene(
    'cot-can-opener',
    'Small cuts, close, equal and joined',
    'The eye from above, with the scleral tunnel at the seat. A can-opener: a ring of small cuts in the front of the capsule, each joined to the one before. The needle makes the next cut, marked with a dot. The rest of the circle is dotted.',
    () => {
      const cuts = range(270, 420, 15, (a) => [at(2.78, a - 4), at(2.5, a), at(2.78, a + 6)]);
      const last = at(2.62, 432);
      return [
        topEye({ iris: 112, wounds: 'tunnel' }),
        line(round(2.62, 440, 622), { dash: 'dot' }),
        cuts.map((each) => pen(spline(each, 4), 2.4, { land: 0.1, lift: 0.05 })),
        rod(last, TUNNEL, 0.32),
        dot(last, 4.2),
        strong(note('tr', ['close, equal,', 'joined'], at(2.7, 36))),
        note('bl', 'planned circle', at(2.62, 236)),
      ];
    },
  ),

  topScene(
    'miol-held-right',
    'Right way up: free ends counter-clockwise',
    'The eye from above, with the scleral tunnel at the seat. The rigid lens is drawn over it as it is held before it goes in. Its right side is up: each haptic leaves the optic and runs counter-clockwise to its free end. The free ends are marked.',
    () => [
      topEye({ iris: 0, pupil: 3.6, wounds: 'tunnel' }),
      fibres(3.6, 84),
      fixed([
        flat(opticOf()),
        haptic({ turn: 30 }, { covered: false, accent: true }),
        haptic({ turn: 210 }, { covered: false, accent: true }),
        outline(opticOf(), 2),
        dot(at(4.62, 286), 4),
        dot(at(4.62, 106), 4),
        arrow([at(2.2, 36), at(2.25, 12), at(2.2, 348)], { width: 2, head: 9, accent: false }),
        strong(note('tl', ['free end', 'counter-clockwise'], at(4.62, 286))),
        note('tr', 'root', at(3, 30)),
        note('br', 'free end', at(4.62, 106)),
      ]),
    ],
  ),

  topScene(
    'mcortex-side-port',
    'Cortex under the tunnel, from the side port',
    'The eye from above, with the scleral tunnel at the seat, which stays closed. The sector of cortex under it is shown with fine lines and a strong arc. The cannula has come in through the side port on the {left} and reaches this sector.',
    () => [
      topEye({ iris: 112, wounds: 'tunnel' }),
      cortexFibres(140, 222),
      ringOf(2.6, 2.2),
      sleeved(at(2.2, 172), TUNNEL_PORT, 'round'),
      pen(round(3.42, 146, 216), 3, { land: 0.1, lift: 0.1, accent: true }),
      strong(note('br', ['sector under', 'the tunnel'], at(3.42, 152))),
      note('tl', ['through the', 'side port'], at(4.6, 264)),
    ],
  ),
];
