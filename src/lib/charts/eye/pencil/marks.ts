import { itemAt } from '../../../item-at';
import { evenly } from './curves';
import { across, add, from, size, sub, times, unit, type Point } from './points';

/**
 * What a scene is made of, as data: nothing here knows of SVG. Marks are mirrored for the other hand and thinned for the
 * small form before they are written, so a scene is said once.
 *
 * pen: an edge, swelling and thinning. line: something thin. hatch with `ink` weight: keep out; with `hair` weight:
 * tissue. stipple: viscoelastic. accent: what the checkpoint asks the reader to look at.
 */
type Common = { fixed?: boolean };
type Contours = readonly (readonly Point[])[];

export type Pen = Common & {
  kind: 'pen';
  points: readonly Point[];
  width: number;
  closed: boolean;
  land: number;
  lift: number;
  accent: boolean;
};
export type Line = Common & {
  kind: 'line';
  lines: Contours;
  weight: 'line' | 'hair' | 'iris' | 'leader';
  dash: 'none' | 'dash' | 'dot';
  sharp: boolean;
  accent: boolean;
};
export type Fill = Common & {
  kind: 'fill';
  contours: Contours;
  tone: 'paper' | 'accent-paper' | 'ink' | 'accent';
  sharp: boolean;
};
export type Hatch = Common & { kind: 'hatch'; contours: Contours; angle: number; gap: number; weight: 'ink' | 'hair' };
export type Stipple = Common & { kind: 'stipple'; contours: Contours; gap: number; accent: boolean };
export type Circle = Common & { kind: 'circle'; at: Point; radius: number; look: 'dot' | 'ink-dot' | 'mark' };
/** A haptic of an implant, kept as its course from root to free end: which way it turns must survive every change of hand. */
export type Haptic = Common & {
  kind: 'haptic';
  course: readonly Point[];
  optic: Point;
  covered: boolean;
  accent: boolean;
};
export type Corner = 'tl' | 'tr' | 'bl' | 'br' | 'top' | 'bottom';
export type Label = Common & {
  kind: 'label';
  lines: readonly string[];
  /** A corner of the frame, or the place of the first line's baseline. */
  place: Corner | { at: Point; anchor: 'start' | 'middle' | 'end' };
  to: Point | null;
  strong: boolean;
};

export type Mark = Pen | Line | Fill | Hatch | Stipple | Circle | Haptic | Label;
export type Marks = Mark | readonly Marks[];

export const flatten = (marks: Marks): Mark[] => ('kind' in marks ? [marks] : marks.flatMap(flatten));

const several = (points: readonly Point[] | Contours): Contours =>
  typeof points[0]?.[0] === 'number' ? [points as readonly Point[]] : (points as Contours);

/** @param width px in the large form */
export const pen = (
  points: readonly Point[],
  width = 1.7,
  { closed = false, land = 0.12, lift = 0.18, accent = false } = {},
): Pen => ({ kind: 'pen', points, width, closed, land, lift, accent });
/** An edge without taper, such as the side of an instrument that runs on out of the picture. */
export const edge = (points: readonly Point[], width = 1.5, accent = false): Pen =>
  pen(points, width, { land: 0.02, lift: 0.02, accent });
export const outline = (points: readonly Point[], width = 1.6, accent = false): Pen =>
  pen(points, width, { closed: true, accent });

export type LineLook = Partial<Pick<Line, 'dash' | 'sharp' | 'accent'>>;
const lineOf =
  (weight: Line['weight']) =>
  (points: readonly Point[] | Contours, { dash = 'none', sharp = false, accent = false }: LineLook = {}): Line => ({
    kind: 'line',
    lines: several(points),
    weight,
    dash,
    sharp,
    accent,
  });
export const line = lineOf('line');
export const hair = lineOf('hair');
export const fibre = lineOf('iris');

/** A smooth shape; on paper it covers what lies behind it. */
export const area = (points: readonly Point[] | Contours, tone: Fill['tone'] = 'paper'): Fill => ({
  kind: 'fill',
  contours: several(points),
  tone,
  sharp: false,
});
/** The same with its corners kept. */
export const flat = (points: readonly Point[] | Contours, tone: Fill['tone'] = 'paper'): Fill => ({
  ...area(points, tone),
  sharp: true,
});

/** Tissue by default; `keepOut` for places where no instrument belongs. */
export const hatch = (points: readonly Point[] | Contours, angle: number, gap = 5): Hatch => ({
  kind: 'hatch',
  contours: several(points),
  angle,
  gap,
  weight: 'hair',
});
export const keepOut = (points: readonly Point[] | Contours, angle = 38, gap = 5.6): Hatch => ({
  ...hatch(points, angle, gap),
  weight: 'ink',
});
export const viscoelastic = (points: readonly Point[] | Contours, gap = 5.4, accent = false): Stipple => ({
  kind: 'stipple',
  contours: several(points),
  gap,
  accent,
});

export const dot = (at: Point, radius = 3.6, look: Circle['look'] = 'dot'): Circle => ({
  kind: 'circle',
  at,
  radius,
  look,
});

/** A swelling arrow along a course, its head at the last point. */
export function arrow(points: readonly Point[], { width = 2.4, head = 10, accent = true } = {}): Mark[] {
  const course = evenly(points, 4);
  const end = itemAt(course, course.length - 1);
  const u = unit(sub(end, itemAt(course, Math.max(0, course.length - 3))));
  const base = sub(end, times(u, head));
  const tail = course.filter((p) => size(sub(p, end)) > head * 0.7);
  return [
    pen([...tail, sub(end, times(u, head * 0.8))], width, { land: 0.3, lift: 0.02, accent }),
    flat(
      [end, from(base, u, 0, head * 0.42), from(base, u, head * 0.22), from(base, u, 0, -head * 0.42)],
      accent ? 'accent' : 'ink',
    ),
  ];
}

/** What must not happen: a dashed line with an open head. */
export function wrongWay(points: readonly Point[]): Mark[] {
  const course = evenly(points, 5);
  const end = itemAt(course, course.length - 1);
  const u = unit(sub(end, itemAt(course, Math.max(0, course.length - 3))));
  return [
    line(course, { dash: 'dash' }),
    line([from(end, u, -6.5, 3.6), end, from(end, u, -6.5, -3.6)], { sharp: true }),
  ];
}

/** A small cross over something that is not done. */
export const cross = (at: Point, r = 6): Mark[] => [
  pen([add(at, [-r, -r]), add(at, [r, r])], 2),
  pen([add(at, [r, -r]), add(at, [-r, r])], 2),
];

/** A measure from a to b with its end strokes. */
export function bracket(a: Point, b: Point, accent = false): Mark {
  const n = times(across(unit(sub(b, a))), 4);
  return line(
    [
      [add(a, n), sub(a, n)],
      [a, b],
      [add(b, n), sub(b, n)],
    ],
    { sharp: true, accent },
  );
}

/** Words in a corner of the frame, with a leader to what they name. */
export const note = (place: Corner, words: string | readonly string[], to: Point | null = null): Label => ({
  kind: 'label',
  lines: typeof words === 'string' ? [words] : words,
  place,
  to,
  strong: false,
});
/** Words at a place of their own. */
export const word = (
  at: Point,
  words: string | readonly string[],
  { anchor = 'middle' as 'start' | 'middle' | 'end', to = null as Point | null } = {},
): Label => ({ ...note('top', words, to), place: { at, anchor } });
/** The words of what the reader is asked to look at. */
export const strong = (label: Label): Label => ({ ...label, strong: true });

/** Marks that stay as they are when the scene is mirrored for the other hand. */
export const fixed = (marks: Marks): Mark[] => flatten(marks).map((mark) => ({ ...mark, fixed: true }));
