import { itemAt } from '../../../item-at';
import { annulus, at, MAIN, OPENING, PORT, round, topEye, wound } from '../anatomy/top';
import { back, lensOf, mm, run, sectionEye, type Lens } from '../anatomy/section';
import { forceps } from '../instruments/top';
import { range, spline } from '../pencil/curves';
import {
  arrow,
  dot,
  keepOut,
  line,
  note,
  pen,
  strong,
  viscoelastic,
  word,
  wrongWay,
  type Mark,
  type Marks,
} from '../pencil/marks';
import { add, type Point } from '../pencil/points';
import { sceneOf, topScene, type Scene } from '../scene';
import { foldedFlap } from './flap';
import { flatten } from '../pencil/marks';

/** Marks moved by so many px, for two drawings in one frame. */
const lowered = (marks: Marks, down: number): Mark[] => {
  const by = (p: Point): Point => [p[0], p[1] + down];
  return flatten(marks).map((mark): Mark => {
    switch (mark.kind) {
      case 'pen':
        return { ...mark, points: mark.points.map(by) };
      case 'line':
        return { ...mark, lines: mark.lines.map((each) => each.map(by)) };
      case 'fill':
      case 'hatch':
      case 'stipple':
        return { ...mark, contours: mark.contours.map((each) => each.map(by)) };
      case 'circle':
        return { ...mark, at: by(mark.at) };
      default:
        return mark;
    }
  });
};

/** A chamber with the front of the lens being torn: torn from the left as far as `torn` mm, the flap standing at the tear. */
function tearing(lens: Lens, dots: number, torn: number): Marks {
  const front = (x: number) => lens.anterior(x);
  const chamber = [...run(back, -5, 5, 20), ...run((x) => front(x) - 0.14, 3.9, -3.9, 16)];
  const flap = spline([
    mm(torn, front(torn)),
    mm(torn - 0.12, front(torn) - 0.32),
    mm(torn - 0.6, front(torn) - 0.5),
    mm(torn - 1.2, front(torn - 1.2) - 0.34),
  ]);
  return [
    viscoelastic(chamber, dots),
    sectionEye(lens, { capsule: false, vitreous: false }),
    pen(run(front, torn, 4.3, 14), 2.3, { land: 0.02, lift: 0.02 }),
    pen(run(front, -4.3, -2.5, 8), 2.3, { land: 0.02, lift: 0.05 }),
    line(
      run((x) => front(x) + 0.1, -2.4, torn - 0.1, 10),
      { dash: 'dot' },
    ),
    ([-1, 1] as const).map((side) => pen(lens.rim(side).slice(0, 10), 1.7, { land: 0.02, lift: 0.3 })),
    pen(flap, 2, { land: 0.02, lift: 0.25 }),
  ];
}

const FLAT = lensOf({ apex: 3.75, radius: 30, pole: 8.1 });
const BULGING = lensOf({ apex: 2.45, radius: 6, pole: 7.4, equator: 4.95 });
const DOWN = 172;

export const capsulorhexisScenes: readonly Scene[] = [
  sceneOf([-160, -16, 320, 312], [-146, -14, 292, 306])(
    'rhexis-deep',
    'Chamber deep, lens flat',
    'Two cross-sections. Above, the chamber is deep and filled with viscoelastic, drawn as dots, and the front of the lens is flat: the tear goes where it is led. Below, the chamber is shallow, with little viscoelastic, and the lens bulges: the tear runs downhill, outwards.',
    () => {
      const spot = (lens: Lens, x: number, up = 0.24, down = 0) => add(mm(x, lens.anterior(x) - up), [0, down]);
      return [
        tearing(FLAT, 6.2, 1.0),
        arrow([1.3, 1.9, 2.5].map((x) => spot(FLAT, x, 0.34))),
        dot(spot(FLAT, 1.0, 0), 3.6),
        lowered(tearing(BULGING, 12, 1.2), DOWN),
        dot(spot(BULGING, 1.2, 0, DOWN), 3.4, 'ink-dot'),
        wrongWay([1.5, 2.3, 3.2, 4.0].map((x) => spot(BULGING, x, 0.3, DOWN))),
        strong(word([0, 112], 'flat: the tear goes where it is led')),
        word([0, 258], ['bulging: the tear', 'runs downhill, outwards']),
      ];
    },
  ),

  topScene(
    'rhexis-regrasp',
    'Taken again, close to the point where it tears',
    'The eye from above. The opening in the capsule is torn for nearly half of its circle, and the rest is dotted. The flap lies folded over. The forceps hold it just behind the point of tear, and small rings mark where it was let go and taken again before. An arrow shows the pull, along the circle and just inside it.',
    () => {
      const [start, end] = [244, 412];
      const tear = at(OPENING, end);
      const edge = round(OPENING, start, end);
      return [
        topEye({ iris: 112 }),
        line(round(OPENING, end, start + 360), { dash: 'dot' }),
        pen(edge, 2.7, { land: 0.04, lift: 0.02 }),
        foldedFlap(edge),
        [270, 320, 368].map((a) => dot(at(OPENING, a), 4.2, 'mark')),
        dot(tear, 4.2),
        forceps(at(2.02, end + 5), MAIN),
        arrow(round(2.45, end + 10, end + 48), { width: 2.8, head: 11 }),
        note('tl', ['let go and', 'taken again'], at(2.75, 318)),
        strong(note('tr', ['pull along', 'the circle'], at(2.55, 84))),
        note('bl', 'planned edge', at(2.68, 196)),
        word([26, -144], 'point of tear', { to: add(tear, [3, -3]) }),
      ];
    },
  ),

  topScene(
    'rhexis-along',
    'Turned in before it runs out',
    'The eye from above. The torn edge has begun to leave the dotted circle and drifts outwards towards a hatched ring, where the zonules insert. The flap is folded over and held close to the point of tear. The dashed arrow goes on outwards. The strong arrow turns the pull in, towards the middle.',
    () => {
      const edge = range(250, 408, 26, (a) => at(OPENING + Math.max(0, (a - 352) / 56) ** 1.6 * 0.5, a));
      const tear = itemAt(edge, edge.length - 1);
      return [
        topEye({ iris: 0, wounds: 'none' }),
        keepOut(annulus(3.62, 4.75)),
        wound(MAIN, 2.4),
        wound(PORT, 1.1, 1.1),
        line(round(OPENING, 352, 610), { dash: 'dot' }),
        pen(edge, 2.7, { land: 0.04, lift: 0.02 }),
        foldedFlap(edge),
        wrongWay(spline([tear, at(3.5, 60), at(4.35, 73)])),
        dot(tear, 4.2),
        forceps(at(2.3, 52), MAIN),
        arrow(spline([at(2.12, 53), at(1.72, 62), at(1.2, 70), at(0.5, 72)].map((p) => add(p, [-3, 3]))), {
          width: 3.2,
          head: 12,
        }),
        note('tr', ['edge begins', 'to drift'], add(tear, [3, -3])),
        strong(note('tl', ['pull turned in', 'to the middle'], at(0.8, 60))),
        note('bl', ['hatched:', 'the zonules'], at(4.3, 215)),
      ];
    },
  ),
];
