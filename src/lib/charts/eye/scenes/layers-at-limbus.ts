import { layer, limbusTick, place, THICK, wallOfEye } from '../anatomy/wall';
import { bent } from '../instruments/section';
import { spline } from '../pencil/curves';
import { arrow, bracket, edge, flat, hatch, note, outline, pen, strong, word, wrongWay } from '../pencil/marks';
import { add, type Point } from '../pencil/points';
import { wallScene, type Scene } from '../scene';

/** Conjunctiva as a thin layer, by its outer side. */
const sheet = (outer: readonly Point[]): Point[] => [...outer, ...[...outer].reverse().map((p) => add(p, [3, 9]))];

export const layersAtLimbus: readonly Scene[] = [
  wallScene(
    'side-port-length',
    'A track of about 1 to 1.5 mm',
    'Cross-section of the wall of the eye. The track of the side port begins in clear cornea just inside the limbus and is about 1 to 1.5 mm long, as the bracket shows. A shorter, steep track, dashed, leaks.',
    () => {
      const track: Point[] = [place(0.32, 0), place(0.7, 0.36), place(1.15, 0.56), place(1.5, THICK)];
      return [
        wallOfEye({ groove: null, lamellae: [1.8, 2.85] }),
        pen(spline(track, 6), 3.4, { land: 0.04, lift: 0.04, accent: true }),
        bracket(place(0.32, -0.24), place(1.55, -0.24), true),
        wrongWay([place(0.4, 0.08), place(0.52, 0.5), place(0.6, THICK + 0.24)]),
        limbusTick(),
        strong(word([12, -52], ['about 1 to 1.5 mm'], { to: place(0.95, -0.26) })),
        note('br', ['seals', 'by itself'], place(1.4, 0.72)),
        note('bl', ['short and steep:', 'leaks'], place(0.57, 0.78)),
        word([-40, 14], 'limbus', { to: place(0, -0.14) }),
      ];
    },
  ),

  wallScene(
    'peritomy-blunt-under',
    'Opened bluntly beneath the flap, before it is cut',
    'Cross-section of the wall of the eye. The first snip has been made at the limbus. The closed scissors have gone beneath the conjunctiva, along the sclera, and are opened there, so that the layer lifts off, as the arrow shows. Only then is it cut.',
    () => {
      const outer = [
        place(-2.75, -0.42),
        place(-2.2, -0.62),
        place(-1.5, -0.66),
        place(-0.9, -0.42),
        place(-0.35, -0.16),
      ];
      const flap = sheet(spline(outer, 6));
      return [
        wallOfEye({ groove: null }),
        flat(flap),
        hatch(flap, 60, 3.2),
        outline(flap, 1.4),
        bent([place(0.9, -1.5), place(0.3, -0.72), place(-0.4, -0.22), place(-1.3, -0.26), place(-2.0, -0.3)], 5),
        bent([place(1.1, -1.3), place(0.5, -0.5), place(-0.3, -0.08), place(-1.2, -0.07), place(-1.9, -0.06)], 5),
        arrow([place(-1.5, -0.34), place(-1.5, -0.58), place(-1.52, -0.98)], { width: 3, head: 10 }),
        limbusTick(),
        strong(word([-156, -10], ['lifted off', 'before the cut'], { anchor: 'start', to: place(-1.62, -0.86) })),
        note('bl', 'bare sclera', place(-1.0, 0.02)),
        word([60, 44], 'limbus', { anchor: 'start', to: place(0, -0.03) }),
        note('br', ['closed scissors,', 'opened beneath'], place(-0.1, -0.06)),
      ];
    },
  ),

  wallScene(
    'conj-edge-unrolled',
    'The rolled edge found and spread',
    'Cross-section of the wall of the eye. The flap of conjunctiva lies over the groove, and its edge has been spread flat at the limbus, drawn strong. An edge that is still rolled in, dashed above it, would not heal down and leaves a ridge.',
    () => {
      const outer = layer(-0.16, -2.75, 0.04, 20);
      const flap = sheet(outer);
      const roll: Point[] = [
        place(-0.85, -0.5),
        place(-0.4, -0.62),
        place(-0.05, -0.78),
        place(-0.25, -1.02),
        place(-0.5, -0.86),
        place(-0.32, -0.72),
      ];
      return [
        wallOfEye(),
        flat(flap),
        hatch(flap, 60, 3.2),
        outline(flap, 1.4),
        edge(layer(-0.17, -0.7, 0.06, 8), 3.4, true),
        arrow(layer(-0.34, -0.95, -0.1, 8), { width: 2.6, head: 10 }),
        wrongWay(spline(roll, 6)),
        strong(word([24, -26], ['edge spread', 'at the limbus'], { anchor: 'start', to: place(0.03, -0.17) })),
        word([-40, -46], ['rolled in:', 'a ridge'], { anchor: 'end', to: place(-0.5, -0.92) }),
        note('bl', ['groove', 'covered'], place(-1.75, 0.04)),
        word([60, 96], 'limbus', { anchor: 'start', to: place(0, 0.02) }),
      ];
    },
  ),
];
