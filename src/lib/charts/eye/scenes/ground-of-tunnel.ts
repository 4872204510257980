import { polar, range, spline } from '../pencil/curves';
import {
  area,
  arrow,
  bracket,
  dot,
  fibre,
  hair,
  hatch,
  keepOut,
  line,
  note,
  outline,
  pen,
  strong,
  word,
  type Marks,
} from '../pencil/marks';
import { add, type Point } from '../pencil/points';
import { sceneOf, type Scene } from '../scene';

/** The lower part of the eye from above, the surgeon below: px per mm, and the middle of the eye. */
const LARGE = 26;
const CENTRE: Point = [0, -108];
const spot = (mm: number, angle: number) => add(CENTRE, polar(mm * LARGE, angle));
const bow = (mm: number, a: number, b: number) => range(a, b, 24, (angle) => spot(mm, angle));
const frown = (half: number) => range(-half, half, 24, (x): Point => [x * LARGE, 108 - 20 * (1 - (x / 3.3) ** 2)]);

const field = (a: number, b: number): Marks => [
  pen(bow(5.9, 112, 248), 2.2, { land: 0.03, lift: 0.03 }),
  fibre(range(120, 240, 45, (angle) => [spot(3.3, angle), spot(4.4 + ((angle * 7) % 5) * 0.18, angle)])),
  pen(bow(3, 112, 248), 1.5),
  hair(bow(6.12, a, b)),
];
/** Conjunctiva beside the bare sclera, by the edge it was cut along. */
const conjunctiva = (from: number, to: number): Marks =>
  fibre(
    range(from, to, Math.round(Math.abs(to - from) / 2), (a) => [
      spot(6.2 + ((a * 3) % 4) * 0.2, a),
      spot(7.4 + ((a * 7) % 5) * 0.3, a + 3),
    ]),
  );

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

  scene(
    'eye-scarred-conjunctiva',
    'Beside the scar, and away from the bleb',
    'The lower part of the eye from above, with the surgeon below. A scar and a filtering bleb, hatched, lie on the {right}: no cut goes there. The peritomy and the planned groove, dotted, lie beside them, where the conjunctiva lifts off by itself.',
    () => {
      const bleb = spline(
        [spot(6.0, 116), spot(6.1, 138), spot(7.2, 140), spot(7.5, 130), spot(7.0, 119), spot(6.0, 116)],
        6,
      );
      return [
        field(150, 236),
        keepOut(bleb),
        outline(bleb, 1.8),
        conjunctiva(142, 150),
        conjunctiva(238, 248),
        pen(spline([spot(5.95, 236), spot(6.8, 238), spot(8.2, 230)], 6), 2.2, { accent: true }),
        pen(bow(6.0, 236, 152), 3, { land: 0.04, lift: 0.04, accent: true }),
        pen(spline([spot(5.95, 152), spot(6.8, 150), spot(8.2, 158)], 6), 2.2, { accent: true }),
        line(
          range(-3.6, 1.9, 20, (x): Point => [x * LARGE, 104 - 20 * (1 - ((x + 0.85) / 3.3) ** 2)]),
          { dash: 'dot' },
        ),
        strong(note('bl', ['beside the scar'], spot(6.3, 236))),
        note('br', ['bleb and scar:', 'no cut'], spot(6.7, 133)),
        word([-30, 116], 'groove'),
      ];
    },
  ),

  scene(
    'eye-nucleus-huge',
    'The inner opening measured against the nucleus',
    'The lower part of the eye from above, with the surgeon below. The outline of a very large nucleus, dashed, stands before the inner opening of the tunnel. The inner opening, drawn strong, is wider than the nucleus by about half a millimetre on each side, and wider than the groove outside.',
    () => {
      const edgeOf = (a: number): Point => [
        96 * Math.sin((a * Math.PI) / 180),
        -40 + 46 * Math.cos((a * Math.PI) / 180),
      ];
      return [
        field(122, 238),
        line(range(-96, 96, 32, edgeOf), { dash: 'dash' }),
        pen(bow(4.75, 241, 119), 3.4, { land: 0.04, lift: 0.04, accent: true }),
        pen(frown(3.9), 3.2, { land: 0.08, lift: 0.08 }),
        hair([spot(4.75, 239), spot(5.9, 236), [-101, 114]]),
        hair([spot(4.75, 121), spot(5.9, 124), [101, 114]]),
        bracket([-96, 34], [96, 34]),
        strong(note('tl', ['inner opening,', 'wider'], spot(4.78, 236))),
        word([0, 52], 'width of the nucleus'),
        note('bottom', 'groove, 7 to 8 mm'),
        word([0, -30], 'nucleus'),
      ];
    },
  ),
];
