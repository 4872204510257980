import { GROOVE, layer, limbusTick, place, THICK, wallOfEye } from '../anatomy/wall';
import { bladeOf, handle } from '../instruments/tunnel-blade';
import { dot, flat, note, pen, strong, word, wrongWay } from '../pencil/marks';
import { add, from, size, sub, unit } from '../pencil/points';
import { wallScene, type Scene } from '../scene';

const HALF = THICK * 0.48;

export const chamberEntryScenes: readonly Scene[] = [
  wallScene(
    'entry-dimple',
    'A dimple first, at the front end of the tunnel',
    'Cross-section of the wall of the eye. The straight keratome has come in through the groove and gone to the front end of the tunnel in clear cornea. Its heel is raised, its point is tipped down and makes a dimple in the inner surface of the cornea: the entry will be there. An entry half-way, dashed, near the limbus, gives a short valve.',
    () => {
      const there = 1.25;
      const inner = (q: number) => THICK + 0.17 * Math.exp(-(((q - there) / 0.26) ** 2));
      const lift = (q: number) => 0.43 * Math.max(0, (0.25 - q) / 2); // the heel is raised, and the roof rises with it
      const tip = place(there, THICK + 0.1);
      const u = unit(sub(place(GROOVE, -0.02), tip));
      const long = size(sub(place(GROOVE, HALF), tip)) + 6;
      const p = (along: number, aside: number) => from(tip, u, along, aside);
      const heel = p(long, 0);
      return [
        wallOfEye({ inner, lamellae: [1.75, 2.85], lift }),
        flat([
          ...layer((q) => HALF - 0.04 - lift(q), GROOVE - 0.02, 0.6, 16),
          ...layer(HALF + 0.02, 0.6, GROOVE - 0.28, 16),
          place(GROOVE - 0.3, -0.06),
          place(GROOVE - 0.02, -0.3),
        ]),
        pen([place(GROOVE, -lift(GROOVE)), place(GROOVE + 0.02, HALF - lift(GROOVE))], 2),
        pen([place(GROOVE - 0.28, 0), place(GROOVE - 0.2, HALF)], 1.6),
        pen(
          layer((q) => HALF - 0.04 - lift(q), GROOVE, 1.5, 20),
          1.5,
          { land: 0.05, lift: 0.1 },
        ),
        pen(layer(HALF + 0.02, GROOVE - 0.2, 0.2, 14), 1.5, { land: 0.05, lift: 0.1 }),
        bladeOf([p(long, -3.4), p(36, -3)], tip, [p(long, 3.4), p(36, 3)]),
        handle(heel, add(heel, [-58, -30]), 11),
        dot(place(there, THICK + 0.19), 4.4),
        wrongWay([place(-0.25, HALF + 0.16), place(-0.12, THICK), place(0, THICK + 0.42)]),
        limbusTick(),
        word([66, -50], 'clear cornea', { to: place(1.9, 0.08) }),
        word([-36, 14], 'limbus', { to: place(0, -0.14) }),
        strong(note('br', ['dimple: the entry', 'will be here'], place(there, THICK + 0.27))),
        note('bl', 'half-way: a short valve', place(-0.02, THICK + 0.36)),
      ];
    },
  ),
];
