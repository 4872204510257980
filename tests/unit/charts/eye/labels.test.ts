import { describe, expect, it } from 'vitest';
import { SCENES } from '../../../../src/lib/charts/eye/catalogue';
import { LABEL_SIZE, placeLabel } from '../../../../src/lib/charts/eye/pencil/labels';
import type { Label } from '../../../../src/lib/charts/eye/pencil/marks';
import type { Point } from '../../../../src/lib/charts/eye/pencil/points';
import { frameOf, marksOf, type Hand } from '../../../../src/lib/charts/eye/scene';

const hands: readonly Hand[] = ['right', 'left'];
const cases = SCENES.flatMap((scene) => hands.map((hand) => [scene.id, hand, scene] as const));
type Box = ReturnType<typeof placeLabel>['box'];

const overlap = (a: Box, b: Box) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
const through = ([p, q]: readonly [Point, Point], box: Box) =>
  Array.from(
    { length: 101 },
    (_, i) => [p[0] + ((q[0] - p[0]) * i) / 100, p[1] + ((q[1] - p[1]) * i) / 100] as const,
  ).some(([x, y]) => x > box.left && x < box.right && y > box.top && y < box.bottom);

describe.each(cases)('%s, %s hand', (_, hand, scene) => {
  const frame = frameOf(scene, 'frame', hand);
  const labels = marksOf(scene, hand).filter((mark): mark is Label => mark.kind === 'label');
  const placed = labels.map((label) => ({ words: label.lines.join(' '), ...placeLabel(label, frame) }));
  const [x, y, width, height] = frame;

  it('has each label, and what it points to, inside the frame', () => {
    for (const { words, box, leader } of placed) {
      expect(box.left, words).toBeGreaterThanOrEqual(x);
      expect(box.right, words).toBeLessThanOrEqual(x + width);
      expect(box.top, words).toBeGreaterThanOrEqual(y);
      expect(box.bottom, words).toBeLessThanOrEqual(y + height);
      if (!leader) continue;
      expect(leader[1][0], words).toBeGreaterThan(x);
      expect(leader[1][0], words).toBeLessThan(x + width);
      expect(leader[1][1], words).toBeGreaterThan(y);
      expect(leader[1][1], words).toBeLessThan(y + height);
    }
  });

  it('has no two labels over each other, and no leader through another label', () => {
    placed.forEach((a, i) =>
      placed.forEach((b, j) => {
        if (i < j) expect(overlap(a.box, b.box), `${a.words} / ${b.words}`).toBe(false);
        if (i !== j && a.leader) expect(through(a.leader, b.box), `${a.words} through ${b.words}`).toBe(false);
      }),
    );
  });

  it('has words of at least 12 px where they are shown (from 18.5rem on)', () => {
    expect((LABEL_SIZE * 296) / width).toBeGreaterThanOrEqual(12);
  });
});
