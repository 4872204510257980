import { itemAt } from '../../../item-at';
import { at, MAIN, OPENING, round, topEye } from '../anatomy/top';
import { forceps } from '../instruments/top';
import { range, spline } from '../pencil/curves';
import { arrow, dot, line, note, pen, strong } from '../pencil/marks';
import { add } from '../pencil/points';
import { topScene, type Scene } from '../scene';
import { foldedFlap } from './flap';

export const tearScenes: readonly Scene[] = [
  topScene(
    'rhexis-fold',
    'Folded over, inner side up',
    'The eye from above. The tear has gone a third of the way round. The flap lies folded over on the lens, its inner side up and drawn with fine lines, and the fold runs straight from the start of the tear to its point. Only then is it pulled round along the dotted circle.',
    () => {
      const [start, end] = [262, 396];
      const torn = round(OPENING, start, end);
      return [
        topEye({ iris: 112 }),
        line(round(OPENING, end, start + 360), { dash: 'dot' }),
        foldedFlap(torn),
        pen(torn, 2.7, { land: 0.04, lift: 0.02 }),
        pen([at(OPENING, start), at(OPENING, end)], 3, { land: 0.06, lift: 0.06, accent: true }),
        dot(at(OPENING, end), 4.2),
        forceps(at(1.75, end + 2), MAIN),
        arrow(round(2.2, end + 22, end + 54), { width: 2.2, head: 9, accent: false }),
        strong(note('tl', ['the fold,', 'straight'], at(1.08, 312))),
        note('tr', ['then pulled', 'round'], at(2.3, 78)),
        note('bl', ['inner side up,', 'lying flat'], at(0.75, 292)),
      ];
    },
  ),

  topScene(
    'rhexis-join',
    'The end meets the start from outside in',
    'The eye from above. The tear has gone nearly all the way round. Its last part runs a little outside the start and crosses it from outside in, along the strong arrow, so that the edge closes without a notch.',
    () => {
      const torn = range(290, 612, 54, (a) => at(OPENING + 0.34 * Math.max(0, (a - 540) / 72) ** 1.4, a));
      const last = itemAt(torn, torn.length - 1);
      return [
        topEye({ iris: 112 }),
        pen(torn, 2.7, { land: 0.03, lift: 0.02 }),
        dot(at(OPENING, 290), 4, 'mark'),
        arrow(spline([last, at(3.0, 262), at(2.98, 275), at(2.72, 290), at(2.25, 304)]), { width: 3.2, head: 12 }),
        dot(last, 4.2),
        strong(note('tl', ['from', 'outside in'], at(2.75, 292))),
        note('bl', ['the tear', 'comes round'], add(last, [-2, 3])),
        note('tr', 'edge, torn once round', at(OPENING, 30)),
        note('br', ['start of', 'the tear'], at(OPENING, 290)),
      ];
    },
  ),
];
