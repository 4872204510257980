import { itemAt } from '../../../item-at';
import { entry, lensOf, mm, nucleusOf, run, sectionEye } from '../anatomy/section';
import { bent } from '../instruments/section';
import { spline } from '../pencil/curves';
import { area, arrow, line, note, pen, strong, word } from '../pencil/marks';
import { add } from '../pencil/points';
import { sectionScene, type Scene } from '../scene';

export const hydrodissectionScenes: readonly Scene[] = [
  sectionScene(
    'hydro-under-rim',
    'Under the rim, and a wave right across',
    'Cross-section. The cannula comes in on the {left} and lies just under the rim of the opening on the {right}; the rim is lifted over it like a tent. The wave of fluid starts at the tip and runs between cortex and capsule, round the equator and behind the lens to the other side.',
    () => {
      const lens = lensOf({ apex: 3.6, radius: 12 });
      const wave = [
        ...run((x) => lens.anterior(x) + 0.22, 3.2, 4.05, 5),
        mm(4.42, 4.85),
        mm(4.5, 5.25),
        mm(4.36, 5.72),
        ...run((x) => lens.posterior(x) - 0.2, 4.0, -3.3, 16),
      ];
      const film = [
        ...run((x) => lens.anterior(x) + 0.1, 3.0, 4.2, 6),
        ...lens.rim(1).slice(1),
        ...run((x) => lens.posterior(x) - 0.05, 4.1, -3.5, 16),
        ...[...wave].reverse().map((p) => add(p, [p[0] > 0 ? -3 : -1, -6])),
      ];
      const tent = spline([mm(2.42, 3.5), mm(2.75, 3.56), mm(3.1, 3.72), mm(3.5, 4.0), mm(3.9, 4.22)], 5);
      const nucleus = nucleusOf(lens);
      return [
        area(film, 'accent-paper'),
        sectionEye(lens, { open: [2.6, 3.9] }),
        line([
          ...run((x) => lens.anterior(x) + 0.12, -2.5, 2.6, 12),
          ...run((x) => lens.anterior(x) + 0.3, 2.9, 3.6, 4),
        ]),
        line([...nucleus, itemAt(nucleus, 0)], { dash: 'dash' }),
        bent([add(entry(-1), [-56, -25]), entry(-1), mm(-1.5, 2.75), mm(1.4, 3.42), mm(3.1, 3.97)]),
        pen(tent, 2.5, { land: 0.06, lift: 0.02 }),
        arrow(spline(wave.slice(2), 2), { width: 2.8, head: 11 }),
        note('tr', ['tip just under', 'the rim, lifting it'], mm(2.75, 3.5)),
        word(mm(0, 5.75), 'nucleus'),
        strong(note('br', 'wave, right across', mm(1.7, 7.75))),
      ];
    },
  ),

  sectionScene(
    'hydro-press',
    'Pressed back, and fluid comes forward',
    'Cross-section. After a burst of fluid the middle of the lens is pressed back gently with the cannula. Fluid from behind the lens comes forward round its edge on both sides and leaves under the rim.',
    () => {
      const lens = lensOf({ apex: 3.7, radius: 14 });
      const sides = [-1, 1] as const;
      const course = (k: 1 | -1) =>
        spline(
          [
            ...run((x) => lens.posterior(x) - 0.22, k * 2, k * 3.9, 5),
            mm(k * 4.42, 5.35),
            mm(k * 4.15, 4.75),
            mm(k * 3.45, 4.34),
            mm(k * 2.75, 4.08),
            mm(k * 2.2, 3.72),
            mm(k * 1.8, 3.2),
          ],
          3,
        );
      const film = (k: 1 | -1) => [
        ...run((x) => lens.posterior(x) - 0.05, k * 1.6, k * 4.2, 8),
        ...[...lens.rim(k)].reverse(),
        ...run((x) => lens.anterior(x) + 0.1, k * 4, k * 2.7, 4),
        ...run((x) => lens.anterior(x) + 0.42, k * 2.9, k * 3.8, 3),
        mm(k * 4.25, 5.25),
        ...run((x) => lens.posterior(x) - 0.42, k * 3.8, k * 1.7, 6),
      ];
      const nucleus = nucleusOf(lens, 0.72, 0.6, 0.7);
      return [
        sides.map((k) => area(film(k), 'accent-paper')),
        sectionEye(lens, { open: 2.6 }),
        line([...nucleus, itemAt(nucleus, 0)], { dash: 'dash' }),
        line(run((x) => lens.anterior(x) + 0.12 + 0.2 * Math.exp(-x * x), -2.5, 2.5, 12)),
        bent([add(entry(-1), [-56, -23]), entry(-1), mm(-2.6, 2.9), mm(0.1, 3.82)]),
        arrow([mm(0.15, 4.25), mm(0.15, 5.25)], { accent: false }),
        sides.map((k) => arrow(course(k), { width: 2.4, head: 10 })),
        note('tl', ['pressed back,', 'gently'], mm(-0.4, 3.62)),
        strong(note('br', ['fluid comes forward', 'round the edge'], mm(3.75, 6.4))),
        word(mm(0, 6.3), 'nucleus'),
      ];
    },
  ),
];
