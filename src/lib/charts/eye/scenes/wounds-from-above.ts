import { at, MAIN, PORT, ringOf, round, topEye, TUNNEL_PORT } from '../anatomy/top';
import { forceps, rod } from '../instruments/top';
import { area, arrow, bracket, dot, line, note, outline, pen, strong, viscoelastic, word } from '../pencil/marks';
import { from, unit } from '../pencil/points';
import { topScene, type Scene } from '../scene';

export const woundsFromAbove: readonly Scene[] = [
  topScene(
    'side-port-eye-held',
    'The eye steadied opposite the blade',
    'The eye from above. Forceps hold the eye at the limbus on the far side, opposite the place of the side port at the lower {left}, before the blade touches the cornea there. A line through the middle joins the two. The eye neither rolls nor dents.',
    () => {
      const u = unit(at(1, PORT));
      const p = (along: number, aside: number) => from(at(6.05, PORT), u, along, aside);
      const blade = [p(2, 0), p(18, 8), p(60, 8), p(60, -8), p(18, -8)];
      return [
        topEye({ iris: 112, wounds: 'none' }),
        line([at(5.5, PORT), at(5.5, PORT - 180)], { dash: 'dash', accent: true, sharp: true }),
        area(blade),
        outline(blade, 1.7),
        forceps(at(5.5, 45), 45),
        dot(at(5.55, 45), 4.4),
        strong(note('tr', ['held', 'opposite'], at(6.0, 47))),
        word([-157, 84], ['blade, not', 'touching yet'], { anchor: 'start', to: p(10, 5) }),
        note('tl', ['no roll,', 'no dent'], at(5.9, 315)),
      ];
    },
  ),

  topScene(
    'main-incision-even',
    'Both sides of the tunnel equally long',
    'The eye from above. The tunnel of the main wound at the lower {right} is equally long on both sides, about 1.75 to 2 mm, as the two brackets show, and its inner lip is straight. Another inner lip, dashed, is cut short on one side: there the wound leaks.',
    () => {
      const u = unit(at(1, MAIN));
      const p = (along: number, aside: number) => from([0, 0], u, along, aside);
      return [
        topEye({ iris: 0 }),
        pen([p(80, -24), p(80, 24)], 3.4, { accent: true }),
        bracket(p(80, -38), p(118, -38), true),
        bracket(p(80, 38), p(118, 38), true),
        line([p(80, -24), p(104, 24)], { dash: 'dash', sharp: true }),
        strong(note('br', ['both sides', 'alike'], p(100, -38))),
        note('bl', ['short on one side:', 'leaks there'], p(98, 14)),
        word([0, -4], 'about 1.75 to 2 mm'),
      ];
    },
  ),

  topScene(
    'mrefill-through-port',
    'Through the side port, the tunnel shut',
    'The eye from above, with the scleral tunnel at the seat. The tunnel is shut. The cannula has come in through the side port on the {left}, and viscoelastic, drawn as dots, fills the bag and then the chamber from there.',
    () => [
      topEye({ iris: 112, wounds: 'tunnel' }),
      viscoelastic([round(2.5).slice(0, -1)], 5.4, true),
      ringOf(2.6, 2.2),
      rod(at(0.9, 280), TUNNEL_PORT, 0.45),
      arrow([at(0.3, 60), at(1.1, 84), at(2.1, 88)], { width: 2.4, head: 9 }),
      pen(round(4.75, 158, 202), 3, { land: 0.05, lift: 0.05 }),
      strong(note('tl', ['through the', 'side port'], at(4.2, 270))),
      note('br', ['tunnel', 'shut'], at(4.75, 166)),
      note('tr', ['bag first,', 'then chamber'], at(2.0, 50)),
    ],
  ),

  topScene(
    'movd-iris-free',
    'Pupil round, iris away from the tunnel',
    'The eye from above, with the scleral tunnel at the seat. The pupil is round, and the iris lies flat, away from the inner opening of the tunnel; the space between the two is marked. A pupil drawn to the tunnel, dashed, would show that iris is in it.',
    () => [
      topEye({ iris: 96, pupil: 2.6, wounds: 'tunnel' }),
      line([...round(2.6, 232, 488), at(4.5, 180), at(2.6, 232)], { dash: 'dash' }),
      bracket(at(2.75, 196), at(4.65, 196), true),
      ringOf(2.6, 2.6, true),
      strong(note('tl', ['round, and', 'away from it'], at(2.6, 320))),
      note('br', ['drawn to it:', 'iris inside'], at(4.1, 177)),
      note('bl', ['inner', 'opening'], at(4.75, 208)),
      dot(at(4.45, 180), 2.6, 'ink-dot'),
    ],
  ),

  topScene(
    'polish-light-passes',
    'Light passes that cross the centre',
    'The eye from above. The tip glides over the posterior capsule in light, parallel passes that cross the centre, shown as thin arrows. Loose fibres lie where it has not been. No dent and no fold shows beneath it.',
    () => [
      topEye({ iris: 112 }),
      ringOf(2.6, 2.2),
      [
        [at(1.9, 300), at(1.9, 20)],
        [at(2.2, 275), at(2.2, 62)],
        [at(2.1, 248), at(2.1, 92)],
      ].map((pass) => arrow(pass, { width: 1.8, head: 9 })),
      [200, 150, 175].map((a) => line([at(1.9, a), at(1.6, a + 7), at(1.35, a - 4)])),
      rod(at(1.0, 128), MAIN, 0.55),
      strong(note('tl', ['light passes', 'over the centre'], at(1.9, 300))),
      note('bl', ['fibres, not', 'yet passed'], at(1.6, 205)),
      note('tr', ['no dent,', 'no fold'], at(1.2, 50)),
    ],
  ),
];
