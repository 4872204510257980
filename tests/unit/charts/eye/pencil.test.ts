import { describe, expect, it } from 'vitest';
import { arcOf, evenly, inside, spline } from '../../../../src/lib/charts/eye/pencil/curves';
import { pen } from '../../../../src/lib/charts/eye/pencil/marks';
import { mirrored } from '../../../../src/lib/charts/eye/pencil/mirror';
import { sharpPath, smoothPath } from '../../../../src/lib/charts/eye/pencil/path-data';
import { strokeOutline } from '../../../../src/lib/charts/eye/pencil/pen';
import { size, sub, turned, type Point } from '../../../../src/lib/charts/eye/pencil/points';
import { hatchLines, stippleDots } from '../../../../src/lib/charts/eye/pencil/tones';

const square: Point[] = [
  [0, 0],
  [60, 0],
  [60, 60],
  [0, 60],
];
const hole: Point[] = [
  [20, 20],
  [40, 20],
  [40, 40],
  [20, 40],
];

describe('tones', () => {
  it('stipples inside a shape, outside its hole, with the gap kept', () => {
    const dots = stippleDots([square, hole], 5);
    expect(dots.length).toBeGreaterThan(60);
    for (const dot of dots) expect(inside([square, hole], dot)).toBe(true);
    for (const [i, a] of dots.entries())
      for (const b of dots.slice(i + 1)) expect(size(sub(a, b))).toBeGreaterThanOrEqual(5);
  });

  it('hatches inside a shape and outside its hole', () => {
    const lines = hatchLines([square, hole], 30, 5);
    expect(lines.length).toBeGreaterThan(10);
    for (const [a, b] of lines)
      for (const t of [0.05, 0.5, 0.95])
        expect(inside([square, hole], [a![0] + (b![0] - a![0]) * t, a![1] + (b![1] - a![1]) * t])).toBe(true);
  });
});

describe('pen', () => {
  it('is about as wide as asked in the middle, and thin at both ends', () => {
    const [outline] = strokeOutline(
      pen(
        [
          [0, 0],
          [100, 0],
        ],
        2,
      ),
    );
    const at = (x: number) => outline!.filter((p) => Math.abs(p[0] - x) < 3).map((p) => p[1]);
    expect(Math.max(...at(50)) - Math.min(...at(50))).toBeCloseTo(2, 0);
    expect(Math.max(...at(0)) - Math.min(...at(0))).toBeLessThan(1);
  });

  it('gives a closed stroke an outer and an inner contour', () => {
    const contours = strokeOutline(pen(arcOf(50, 0, 354), 2, { closed: true }));
    expect(contours).toHaveLength(2);
    const radii = contours.map((each) => each.map(size));
    expect(Math.min(...radii.flat())).toBeGreaterThan(48);
    expect(Math.max(...radii.flat())).toBeLessThan(52);
  });
});

/** What path data says, read back: only the commands that are written. */
function ends(d: string): Point[] {
  let here: Point = [0, 0];
  const out: Point[] = [];
  for (const [, command, rest] of d.matchAll(/([MlqthZ])([^MlqthZ]*)/g)) {
    const n = (rest!.match(/-?(?:\d+\.?\d*|\.\d+)/g) ?? []).map(Number);
    const step = command === 'q' ? 4 : 2;
    if (command === 'M') out.push((here = [n[0]!, n[1]!]));
    else if (command !== 'Z' && command !== 'h')
      for (let i = 0; i < n.length; i += step)
        out.push((here = [here[0] + n[i + step - 2]!, here[1] + n[i + step - 1]!]));
  }
  return out;
}

describe('path data', () => {
  const course = spline(
    [
      [-3.26, 4],
      [10.04, -0.04],
      [20, 14.5],
      [33.3, 2],
    ],
    5,
  );
  it('keeps every corner to a tenth of a pixel, however short it is written', () => {
    const read = ends(sharpPath(course));
    expect(read).toHaveLength(course.length);
    read.forEach((p, i) => expect(size(sub(p, course[i]!))).toBeLessThan(0.08));
  });

  it('runs smoothly from the first point to the last', () => {
    const read = ends(smoothPath(course));
    expect(size(sub(read[0]!, course[0]!))).toBeLessThan(0.08);
    expect(size(sub(read.at(-1)!, course.at(-1)!))).toBeLessThan(0.08);
  });
});

describe('curves', () => {
  it('passes through its points and is cut into even steps', () => {
    const points: Point[] = [
      [0, 0],
      [30, 20],
      [60, 0],
    ];
    const course = spline(points);
    for (const p of points) expect(Math.min(...course.map((q) => size(sub(p, q))))).toBeLessThan(0.001);
    const steps = evenly(course, 4);
    const lengths = steps.slice(1).map((p, i) => size(sub(p, steps[i]!)));
    expect(Math.max(...lengths) / Math.min(...lengths)).toBeLessThan(1.1);
  });

  it('turns clockwise as seen', () => {
    const [x, y] = turned([0, -10], 90);
    expect(x).toBeCloseTo(10, 9);
    expect(y).toBeCloseTo(0, 9);
  });
});

it('mirrored twice is the same again', () => {
  const mark = pen([
    [1, 2],
    [3, 4],
    [9, 1],
  ]);
  expect(mirrored(mirrored(mark))).toEqual(mark);
  expect(mirrored(mark)).not.toEqual(mark);
  expect(mirrored({ ...mark, fixed: true })).toEqual({ ...mark, fixed: true });
});
