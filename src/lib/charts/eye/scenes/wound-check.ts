import { at, MAIN, PORT, sector, topEye } from '../anatomy/top';
import { arrow, dot, edge, flat, hatch, note, strong, word } from '../pencil/marks';
import { add, from, unit } from '../pencil/points';
import { topScene, type Scene } from '../scene';

export const woundCheckScenes: readonly Scene[] = [
  topScene(
    'wound-check-dried',
    'Dried, pressed, and watched',
    'The eye from above. The surface at the main wound has been dried with a sponge, whose point touches the outer lip. The eye is pressed gently beside that wound while it is watched; a lighter arrow shows that the side port has its turn. The walls on both sides of each wound have been swollen with fluid.',
    () => {
      const middle = at(6, MAIN);
      const u = unit(middle);
      const tip = add(middle, from([0, 0], u, 2));
      const p = (along: number, aside: number) => from(tip, u, along, aside);
      const sponge = [p(0, 0), p(34, 15), p(42, 13), p(42, -13), p(34, -15)];
      return [
        topEye({ iris: 112, pupil: 2.9 }),
        [MAIN - 18, MAIN + 18, PORT - 11, PORT + 11].map((a) => hatch(sector(4.3, 5.8, a - 6, a + 6), 20, 2.6)),
        flat(sponge),
        hatch(sponge, 20, 5),
        edge([p(42, 13), p(34, 15), p(0, 0), p(34, -15), p(42, -13)], 1.8),
        dot(tip, 4),
        arrow([at(7.6, 104), at(6.9, 104), at(6.1, 104)], { width: 2.8, head: 11 }),
        arrow([at(7.5, 250), at(6.9, 250), at(6.1, 250)], { width: 1.8, head: 8, accent: false }),
        strong(note('tr', ['pressed beside it,', 'gently'], at(7.3, 101))),
        note('br', ['dry, and', 'watched'], add(tip, [0, 5])),
        note('tl', ['round pupil,', 'no strand'], at(2.9, 322)),
        word([-157, 60], 'in its turn', { anchor: 'start', to: at(6.9, 250) }),
        note('bl', ['walls swollen', 'on both sides'], at(5, 214)),
      ];
    },
  ),
];
