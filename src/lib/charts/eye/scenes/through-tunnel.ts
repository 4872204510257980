import { at, round, topEye, TUNNEL } from '../anatomy/top';
import { lensOf, mm, sectionEye } from '../anatomy/section';
import { way } from '../instruments/top';
import { bent } from '../instruments/section';
import { ellipse, spline } from '../pencil/curves';
import { area, arrow, edge, flat, hatch, note, outline, pen, strong, wrongWay } from '../pencil/marks';
import { from } from '../pencil/points';
import { sectionScene, topScene, type Scene } from '../scene';

export const throughTunnelScenes: readonly Scene[] = [
  topScene(
    'entry-forward-cuts',
    'Widened on forward strokes only',
    'The eye from above, with the scleral tunnel at the seat. The blade lies flat in the tunnel, and its point has gone through the inner lip. The part already open is drawn strong. Arrows show strokes forwards, towards the middle of the eye, one beside the other. A sideways stroke, dashed, would tear.',
    () => {
      const tip = at(3.85, 184);
      const { u, far } = way(tip, TUNNEL, 6.6);
      const blade = [
        from(tip, u, far, 9),
        from(tip, u, 60, 9),
        from(tip, u, 34, 24),
        tip,
        from(tip, u, 34, -24),
        from(tip, u, 60, -9),
        from(tip, u, far, -9),
      ];
      return [
        topEye({ iris: 112, wounds: 'tunnel' }),
        pen(round(4.75, 204, 158), 3.4, { land: 0.05, lift: 0.05, accent: true }),
        flat(blade),
        edge(blade, 1.7),
        [160, 148].map((a) => arrow([at(5.8, a), at(5.0, a - 1), at(4.1, a - 2)], { width: 2.6, head: 10 })),
        wrongWay(spline([at(4.5, 204), at(4.5, 214), at(4.62, 226)])),
        strong(note('br', ['cut forwards', 'only'], at(4.9, 148))),
        note('bl', ['sideways:', 'a tear'], at(4.55, 221)),
        note('tl', 'open so far', at(4.72, 197)),
      ];
    },
  ),

  sectionScene(
    'delivery-lip-down',
    'Lip down, and the nucleus comes',
    'Cross-section. The leading edge of the nucleus has entered the tunnel on the {right}. An instrument presses the scleral lip of the tunnel down, along the arrow, so that the tunnel opens and the nucleus slides out. The loop lies behind the nucleus. Viscoelastic keeps it away from the cornea.',
    () => {
      const lens = lensOf({ apex: 4.6, radius: 24, pole: 6.9, backRadius: 9, equator: 5.4 });
      const nucleus = ellipse(mm(3.5, 2.55), 62, 21, 19);
      const floor = spline([mm(4.6, 3.9), mm(5.5, 3.75), mm(6.3, 4.1), mm(7.3, 4.75)], 5);
      const roof = spline([mm(3.6, 1.35), mm(4.6, 1.6), mm(5.7, 2.2), mm(6.5, 2.85)], 5);
      return [
        sectionEye(lens, { open: 3.2, pupil: 3.7 }),
        flat([mm(4.5, 1.5), mm(5.9, 2.2), mm(7.45, 3.4), mm(7.45, 5.0), mm(6.2, 4.5), mm(5.4, 3.9), mm(4.6, 3.85)]),
        hatch([...roof.slice(6), mm(6.0, 2.3), mm(4.6, 1.35)], 40, 4),
        pen(roof, 2.2, { land: 0.05, lift: 0.05 }),
        area(nucleus),
        hatch(nucleus, 24, 5.4),
        outline(nucleus, 2),
        bent([mm(7.4, 3.9), mm(6.2, 3.62), mm(4.6, 3.5), mm(2.6, 3.3), mm(0.9, 2.6)], 4.4),
        hatch([...floor, mm(7.3, 5.4), mm(5.8, 4.6)], -60, 4),
        pen(floor, 3.2, { land: 0.05, lift: 0.05, accent: true }),
        arrow([mm(6.7, 2.4), mm(6.65, 3.1), mm(6.55, 4.0)], { width: 3, head: 11 }),
        note('tl', ['nucleus lined up', 'with the tunnel'], mm(1.2, 2.0)),
        strong(note('br', ['lip down,', 'nucleus comes'], mm(6.5, 4.3))),
        note('bl', 'loop behind it', mm(1.0, 2.75)),
      ];
    },
  ),
];
