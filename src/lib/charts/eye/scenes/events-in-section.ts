import { entry, irisOf, irisShape, lensOf, mm, sectionEye } from '../anatomy/section';
import { probe } from '../instruments/section';
import { ellipse, spline } from '../pencil/curves';
import { area, arrow, edge, hair, hatch, line, note, outline, pen, strong, word } from '../pencil/marks';
import { sceneOf, sectionScene, type Scene } from '../scene';

const lens = lensOf({ apex: 3.7, radius: 14 });

export const eventsInSection: readonly Scene[] = [
  sectionScene(
    'rehearsal-iris-prolapse',
    'Pressure out first, through the other port',
    'Cross-section. On the {right} iris has come into the wound. On the {left} the side port is opened with a spatula, and fluid leaves there, along the strong arrow, until the eye is soft. Only then is the iris stroked in. Pushing it against a full eye is not shown.',
    () => [
      sectionEye(lens, { open: 2.6, iris: false }),
      irisOf(lens, -1, 3.5),
      irisShape(
        [
          mm(5.8, 3.86),
          mm(5.35, 3.35),
          mm(5.5, 2.75),
          mm(6.2, 2.15),
          mm(6.55, 2.3),
          mm(6.0, 2.9),
          mm(5.75, 3.4),
          mm(5.85, 4.05),
        ],
        1,
      ),
      hair([mm(4.6, 1.75), mm(5.6, 2.25)]),
      probe(mm(-4.3, 2.75), entry(-1), 4.4),
      arrow(spline([mm(-3.3, 2.35), mm(-4.6, 2.1), mm(-5.7, 1.85), mm(-6.9, 1.5)]), { width: 3.2, head: 12 }),
      strong(note('tl', ['pressure out', 'first'], mm(-6.0, 1.72))),
      note('tr', ['iris in', 'the wound'], mm(6.2, 2.3)),
      note('br', ['stroked in', 'after that'], mm(5.55, 3.3)),
      note('bl', 'side port', mm(-5.1, 2.65)),
    ],
  ),

  sectionScene(
    'rehearsal-descemet',
    'Air presses the membrane up',
    'Cross-section. A thin sheet of Descemet’s membrane has come off the back of the cornea from the wound on the {right}. A bubble of air lies beneath it and presses it up into its place, as the arrows show. No air lies between the sheet and the cornea.',
    () => {
      const sheet = spline([mm(5.0, 2.55), mm(4.2, 2.2), mm(3.2, 1.8), mm(2.2, 1.35), mm(1.3, 0.95), mm(0.8, 0.64)], 6);
      const bubble = ellipse(mm(2.35, 2.45), 46, 20, 22);
      return [
        sectionEye(lens, { open: 2.6 }),
        area(bubble, 'accent-paper'),
        outline(bubble, 2),
        hair([mm(1.5, 2.0), mm(2.1, 1.95)]),
        pen(sheet, 3, { land: 0.04, lift: 0.1, accent: true }),
        ([1.4, 2.5, 3.5] as const).map((x) =>
          arrow([mm(x, x * 0.38 + 1.75), mm(x + 0.12, x * 0.38 + 1.2), mm(x + 0.2, x * 0.38 + 0.78)], {
            width: 2.2,
            head: 8,
          }),
        ),
        strong(note('tr', ['air presses', 'it up'], mm(3.0, 1.68))),
        note('br', ['bubble under', 'the membrane'], mm(2.9, 2.9)),
        note('tl', ['still attached'], mm(-2.2, 1.05)),
      ];
    },
  ),

  sceneOf([-160, -140, 320, 290], [-140, -132, 280, 270])(
    'rehearsal-suprachoroidal',
    'Close at once, and call',
    'The whole eye in section, cornea upwards. A dark dome of blood under the choroid pushes in from one side at the back. The chamber is shallow. The wound on the {right} is closed with a suture, drawn strong. Nothing else is in the eye, and nothing is opened to let fluid out.',
    () => {
      const ball = ellipse([0, 18], 118, 114);
      const dome = [
        ...spline(
          [
            [-108, 58],
            [-58, 44],
            [-28, 78],
            [-44, 122],
          ],
          8,
        ),
        ...spline(
          [
            [-62, 116],
            [-92, 92],
            [-108, 60],
          ],
          6,
        ),
      ] as const;
      const cornea = spline(
        [
          [-62, -79],
          [-34, -112],
          [0, -122],
          [34, -112],
          [62, -79],
        ],
        8,
      );
      const bag = ellipse([0, -66], 42, 18);
      return [
        outline(ball, 2.4),
        area([...cornea, [62, -78], [0, -70], [-62, -78]]),
        edge(cornea, 2.4),
        edge(
          cornea.map(([x, y]) => [x * 0.94, y + 7] as const),
          1.4,
        ),
        area([...dome], 'ink'),
        pen(
          spline(
            [
              [-110, 58],
              [-58, 43],
              [-27, 78],
              [-44, 124],
            ],
            8,
          ),
          2.4,
        ),
        area(bag),
        outline(bag, 1.8),
        ([-1, 1] as const).map((k) => {
          const iris = spline(
            [
              [k * 60, -80],
              [k * 30, -88],
              [k * 30, -82],
              [k * 60, -74],
            ],
            5,
          );
          return [area(iris), hatch(iris, 70, 3), edge(iris, 1.4)];
        }),
        line(
          [
            [-70, 110],
            [-30, 124],
            [20, 128],
          ].map(([x = 0, y = 0]) => [x, y] as const),
          { dash: 'dot' },
        ),
        pen(
          [
            [38, -96],
            [68, -86],
          ],
          4.6,
          { accent: true },
        ),
        strong(note('tr', ['wound closed', 'at once'], [56, -94])),
        note('tl', ['chamber', 'shallow'], [-24, -98]),
        note('bl', ['dark dome'], [-62, 90]),
        word([24, 40], 'vitreous'),
      ];
    },
  ),
];
