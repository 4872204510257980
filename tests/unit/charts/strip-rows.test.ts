import { describe, expect, it } from 'vitest';
import { NARROW, WIDE, type Width } from '../../../src/lib/charts/drawn';
import { stripRows, type StripInput } from '../../../src/lib/charts/strip-rows';
import { textWidth } from '../../../src/lib/charts/text-fit';

const dots = (count: number, from: number) =>
  Array.from({ length: count }, (_, at) => ({ code: `C${at}`, seconds: from + at, said: '' }));
const input = (over: Partial<StripInput> = {}): StripInput => ({
  rows: [
    { id: 'soft', label: 'soft', under: '30 cases', dots: dots(30, 40), median: { seconds: 54.5, text: '0:55' } },
    { id: 'hard', label: 'hard or very hard', under: '20 cases', dots: dots(20, 70), median: null },
  ],
  ticks: [30, 45, 60, 90, 120].map((seconds) => [seconds, String(seconds)] as const),
  seed: 1,
  ...over,
});
function drawn(of: StripInput, width: Width) {
  const drawing = stripRows(of, width);
  if (drawing.kind === 'cannot-draw') throw new Error(drawing.because);
  return drawing;
}

describe('cases in rows', () => {
  it('says why it cannot be drawn', () => {
    expect(stripRows(input({ rows: [] }), WIDE)).toMatchObject({ kind: 'cannot-draw' });
  });

  it.each([NARROW, WIDE] as const)('keeps every dot on the drawing and in the order of its time at %d px', (width) => {
    const { points, height } = drawn(input(), width);
    expect(points.map((row) => row.length)).toEqual([30, 20]);
    for (const row of points)
      row.forEach(({ x, y }, at) => {
        expect(x).toBeGreaterThanOrEqual(at === 0 ? 0 : row[at - 1]!.x);
        expect(x).toBeLessThan(width);
        expect(y).toBeLessThan(height);
      });
  });

  it.each([NARROW, WIDE] as const)(
    'covers no dot of its row with a word, and no word with another, at %d px',
    (width) => {
      const marked = dots(30, 40).map((dot, at) =>
        at === 10 ? { ...dot, mark: 'shorter' } : at === 12 ? { ...dot, mark: 'longer' } : dot,
      );
      const of = input({ rows: [{ ...input().rows[0]!, dots: marked }] });
      const { rows, points, small } = drawn(of, width);
      const boxes = rows[0]!.marks.map(({ x, y, text }) => {
        const half = textWidth(text, small, true) / 2;
        return { left: x - half, right: x + half, top: y - small, bottom: y };
      });
      expect(boxes).toHaveLength(2);
      for (const box of boxes)
        for (const { x, y } of points.flat())
          expect(x > box.left && x < box.right && y > box.top && y < box.bottom).toBe(false);
      const [a, b] = boxes;
      expect(a!.right < b!.left || b!.right < a!.left || a!.bottom < b!.top || b!.bottom < a!.top).toBe(true);
    },
  );

  it('leaves out a tick that would stand in another', () => {
    const ticks = drawn(input({ ticks: [50, 51, 52, 80].map((seconds) => [seconds, String(seconds)]) }), WIDE).ticks;
    expect(ticks.map(({ label }) => label)).toEqual(['50', '80']);
  });
});
