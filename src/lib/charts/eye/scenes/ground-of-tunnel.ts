import { bow, conjunctiva, field, frown, LARGE, spot } from '../anatomy/ground';
import { range, spline } from '../pencil/curves';
import { area, arrow, bracket, dot, hatch, line, note, outline, pen, strong, word } from '../pencil/marks';
import { sceneOf, type Scene } from '../scene';

const scene = sceneOf([-160, -62, 320, 222], [-130, -50, 260, 180]);

export const groundOfTunnel: readonly Scene[] = [
  scene(
    'peritomy-width',
    'Bare sclera, wider than the groove',
    'The lower part of the eye from above, with the surgeon below. The conjunctiva has been lifted off the limbus, and the sclera beneath is bare and white. The planned groove is dotted. The bare field goes about 1 mm beyond it on both sides, as the brackets show.',
    () => [
      field(136, 224),
      conjunctiva(114, 134),
      conjunctiva(226, 246),
      pen(spline([spot(5.95, 226), spot(6.6, 227), spot(7.6, 222), spot(8.6, 216)], 6), 2.2),
      pen(spline([spot(5.95, 134), spot(6.6, 133), spot(7.6, 138), spot(8.6, 144)], 6), 2.2),
      line(frown(3.3), { dash: 'dot' }),
      bracket([-86, 122], [-113, 122], true),
      bracket([86, 122], [113, 122], true),
      strong(note('bottom', 'about 1 mm more on both sides')),
      word([0, 72], 'bare sclera'),
      word([-157, -46], 'conjunctiva', { anchor: 'start', to: spot(6.8, 244) }),
      word([0, 106], 'planned groove'),
    ],
  ),

  scene(
    'cautery-spaced',
    'Light touches, set apart',
    'The lower part of the eye from above, with the surgeon below. On the bare sclera the ends of single vessels are marked with small touches, set apart from each other. A row of touches running together along the dotted groove, at the lower right, is crossed out. The strip along the limbus is left alone.',
    () => [
      field(120, 240),
      [
        [-70, 50],
        [-44, 78],
        [-18, 60],
        [8, 84],
        [36, 62],
      ].map(([x = 0, y = 0], i) => [
        line(
          spline(
            [
              [x - 20, y + 46 - i * 3],
              [x - 12, y + 22],
              [x - 2, y + 4],
            ] as const,
            5,
          ),
        ),
        dot([x, y], 4),
      ]),
      line(frown(3.3), { dash: 'dot' }),
      range(58, 88, 5, (x) => dot([x, 108 - 20 * (1 - (x / LARGE / 3.3) ** 2) - 2], 3.4, 'ink-dot')),
      pen(
        [
          [62, 82],
          [84, 106],
        ],
        2,
      ),
      pen(
        [
          [84, 82],
          [62, 106],
        ],
        2,
      ),
      strong(note('bl', ['touches', 'set apart'], [-44, 80])),
      note('br', ['no row along', 'the groove'], [82, 102]),
      word([-157, 20], ['limbus', 'spared'], { anchor: 'start', to: spot(6.05, 230) }),
    ],
  ),

  scene(
    'conj-drawn-over',
    'Drawn over the groove, its edge unrolled',
    'The lower part of the eye from above, with the surgeon below. The flap of conjunctiva has been drawn over the groove, dashed beneath it, up to the limbus, along the arrows. Its edge is spread flat. Both corners are fixed and marked.',
    () => {
      const flap = [...bow(6.0, 226, 134), spot(7.6, 138), spot(9.2, 150), spot(9.2, 210), spot(7.6, 222)];
      return [
        field(112, 248),
        area(flap),
        hatch(flap, 84, 7),
        outline(flap, 1.2),
        pen(bow(6.0, 226, 134), 3.4, { land: 0.04, lift: 0.04, accent: true }),
        line(frown(3.3), { dash: 'dash' }),
        ([-52, 0, 52] as const).map((x) =>
          arrow(
            [
              [x, 88],
              [x, 72],
              [x, 56],
            ],
            { accent: false, width: 2.2, head: 9 },
          ),
        ),
        dot(spot(6.05, 225), 5, 'mark'),
        dot(spot(6.05, 135), 5, 'mark'),
        strong(word([0, 30], 'edge spread at the limbus', { to: spot(5.98, 182) })),
        note('bl', ['corner', 'fixed'], spot(6.1, 225)),
        note('br', ['groove', 'covered'], [78, 104]),
      ];
    },
  ),
];
