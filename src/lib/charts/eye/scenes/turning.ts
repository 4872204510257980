import { itemAt } from '../../../item-at';
import { at, MAIN, OPENING, ringOf, round, topEye, TUNNEL_PORT } from '../anatomy/top';

import { bentRod, hook } from '../instruments/top';
import { ellipse } from '../pencil/curves';
import { area, arrow, hatch, line, note, outline, strong, viscoelastic } from '../pencil/marks';
import { topScene, type Scene } from '../scene';

export const turningScenes: readonly Scene[] = [
  topScene(
    'hydro-turn',
    'The nucleus turns, the bag stays',
    'The eye from above. The cannula pushes lightly near the edge of the nucleus. A line across the nucleus shows it turned by about a quarter from where it was, dashed. The rim of the opening and the bag stay where they are.',
    () => {
      const nucleus = round(3.3).slice(0, -1);
      return [
        topEye({ iris: 112 }),
        area(nucleus),
        line(nucleus.concat([itemAt(nucleus, 0)]), { dash: 'dash' }),
        hatch(round(OPENING).slice(0, -1), 62, 8),
        line([at(2.4, 45), at(2.4, 225)], { dash: 'dash', sharp: true }),
        line([at(2.4, 318), at(2.4, 138)], { sharp: true }),
        ringOf(OPENING, 2.4),
        bentRod([at(8.1, MAIN - 4), at(5.7, MAIN), at(3.4, 122), at(2.05, 104)], 6.5),
        arrow(round(1.95, 84, 12), { width: 3.2, head: 12 }),
        strong(note('tr', ['nucleus turns,', 'a quarter'], at(2.0, 42))),
        note('tl', ['rim and bag', 'stay'], at(2.62, 318)),
        note('bl', ['where the', 'line was'], at(2.3, 225)),
      ];
    },
  ),

  topScene(
    'prolapse-turning',
    'One direction, round the rim',
    'The eye from above, with the scleral tunnel at the seat. One pole of the nucleus has come over the rim of the opening. A hook turns the nucleus about its own middle, always in the one direction shown by the arrow, so that more and more of its edge comes over the rim. Viscoelastic, drawn as dots, lies around it.',
    () => {
      const nucleus = ellipse([-3, -8], 62, 56, -20);
      return [
        topEye({ iris: 112, wounds: 'tunnel', pupil: 3.8 }),
        ringOf(3.1, 2),
        viscoelastic([round(3.7).slice(0, -1), nucleus], 5.4),
        area(nucleus),
        hatch(nucleus, 28, 6.4),
        outline(nucleus, 2),
        line(round(3.1, 100, 222), { dash: 'dash' }),
        hook(at(2.5, 222), TUNNEL_PORT, 1),
        arrow(round(2.25, 238, 318), { width: 3.4, head: 12 }),
        strong(note('tl', ['one direction', 'only'], at(2.25, 296))),
        note('tr', ['edge over', 'the rim'], at(3.2, 40)),
        note('bl', 'hook', at(3.6, 246)),
        note('br', ['still under', 'the rim'], at(3.1, 128)),
      ];
    },
  ),
];
