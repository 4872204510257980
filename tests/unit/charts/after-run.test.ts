import { describe, expect, it } from 'vitest';
import { afterRun, type RunDrawing } from '../../../src/lib/charts/after-run';
import { NARROW, WIDE, type Width } from '../../../src/lib/charts/drawn';
import type { RunCase, RunInput } from '../../../src/lib/charts/run-input';
import { textWidth } from '../../../src/lib/charts/text-fit';
import { LEAST_PER_CASE, runPanels } from '../../../src/lib/charts/run-panels';

const cases = (period: number, count: number, over: Partial<RunCase> = {}): RunCase[] =>
  Array.from({ length: count }, (_, index) => ({
    id: `case-${period}${index}`,
    code: `P${period}-${index}`,
    period,
    ratio: 1,
    leftOut: false,
    list: `${period}-${Math.floor(index / 5)}`,
    note: false,
    events: 'none' as const,
    said: '100',
    ...over,
  }));
const run = (counts: number[], over: Partial<RunInput> = {}): RunInput => ({
  cases: counts.flatMap((count, period) => cases(period, count)),
  periods: counts.map((count, index) => ({
    id: String(index),
    label: index === 0 ? `baseline ${count}` : index === 1 ? 'next twenty' : 'following 20',
    shape: index === 0 ? ('open-circle' as const) : index === 1 ? ('filled-circle' as const) : ('open-square' as const),
    median: index === 0 ? null : 0.8,
    named: index === 1,
    mayShorten: index === 0,
  })),
  limits: { low: 0.6, high: 1.6 },
  one: '100',
  lanes: ['lists', 'notes', 'events'],
  ...over,
});
function drawn(input: RunInput, width: Width): RunDrawing {
  const drawing = afterRun(input, width);
  if (drawing.kind === 'cannot-draw') throw new Error(drawing.because);
  return drawing;
}
const spans = (drawing: RunDrawing) =>
  drawing.points.map((row) => row.slice(1).map((point, index) => point.x - (row[index]?.x ?? 0)));

describe('the run of cases', () => {
  it('says why it cannot be drawn', () => {
    expect(afterRun(run([]), WIDE).kind).toBe('cannot-draw');
    expect(afterRun({ ...run([3]), cases: cases(0, 3, { ratio: NaN }) }, WIDE).kind).toBe('cannot-draw');
  });

  it.each([
    [[40, 20, 20], WIDE],
    [[80, 20, 20, 20, 20], WIDE],
    [[300, 40, 40], WIDE],
    [[40, 20, 20], NARROW],
    [[80, 40, 40], NARROW],
    [[20, 13], NARROW],
  ] as const)('gives %j cases at %d px at least six pixels each', (counts, width) => {
    const drawing = drawn(run([...counts]), width);
    // Positions are rounded to a tenth.
    for (const row of spans(drawing))
      for (const span of row) expect(span).toBeGreaterThanOrEqual(LEAST_PER_CASE - 0.11);
    for (const point of drawing.points.flat()) {
      expect(point.x).toBeGreaterThan(drawing.left);
      expect(point.x).toBeLessThan(drawing.right + 0.1);
    }
  });

  it('shows the latest twenty baseline cases on a phone, says how many there are, and every case of a window', () => {
    const drawing = drawn(run([40, 20, 20]), NARROW);
    const names = drawing.panels.flatMap(({ segments }) => segments.map(({ name }) => name.text));
    expect(names).toEqual(['latest 20 of 40', 'next twenty', 'following 20']);
    expect(drawing.notDrawn).toBe(20);
    expect(drawn(run([40, 20, 20]), WIDE).notDrawn).toBe(0);
  });

  it('grows its axis until it holds every case, and leaves only the absurd at its edge', () => {
    const far = (ratio: number) => drawn({ ...run([3]), cases: [...cases(0, 2), ...cases(0, 1, { ratio })] }, WIDE);
    for (const ratio of [0.3, 0.44, 2.3, 4]) expect(far(ratio).panels[0]?.segments[0]?.beyond).toBe('');
    expect(far(30).panels[0]?.segments[0]?.beyond).not.toBe('');
  });

  it('puts longer higher', () => {
    const input = { ...run([2]), cases: [...cases(0, 1, { ratio: 0.7 }), ...cases(0, 1, { ratio: 1.4 })] };
    const [shorter, longer] = drawn(input, WIDE).points[0] ?? [];
    expect(longer?.y).toBeLessThan(shorter?.y ?? 0);
  });

  it('crosses a left-out case out on the axis and keeps its place', () => {
    const input = run([5]);
    const third = {
      ...input,
      cases: input.cases.map((each, at) => (at === 2 ? { ...each, leftOut: true, ratio: 1.3 } : each)),
    };
    const [segment] = drawn(third, WIDE).panels[0]?.segments ?? [];
    expect(segment?.crosses).not.toBe('');
    expect(segment?.marks.match(/M/g)).toHaveLength(4);
    expect(drawn(third, WIDE).points[0]).toHaveLength(5);
  });

  it('holds cases beyond the axis at its edge', () => {
    const input = { ...run([2]), cases: [...cases(0, 1, { ratio: 40 }), ...cases(0, 1, { ratio: 0.01 })] };
    const [panel] = drawn(input, WIDE).panels;
    expect(panel?.segments[0]?.marks).toBe('');
    expect(panel?.segments[0]?.beyond.match(/M/g)).toHaveLength(2);
  });

  it('draws a median only where one is given, limits only over the baseline cases', () => {
    const [start, window] = drawn(run([40, 20]), WIDE).panels[0]?.segments ?? [];
    expect(start).toMatchObject({ median: null });
    expect(start?.limits).toHaveLength(2);
    expect(window?.median?.named).toBe(true);
    expect(window?.limits).toHaveLength(0);
  });

  it('says under the cases what was an event, what was not answered, and nothing where none was', () => {
    const input = run([3]);
    const events = ['event', 'not-answered', 'none'] as const;
    const told = { ...input, cases: input.cases.map((each, at) => ({ ...each, events: events[at] ?? 'none' })) };
    const lane = drawn(told, WIDE).panels[0]?.lanes.find(({ name }) => name === 'events');
    expect(lane?.letters.map(({ text }) => text)).toEqual(['E', '?']);
  });

  it('joins neighbours of one list, and draws no dash where the list is not known', () => {
    const lane = (input: RunInput) => drawn(input, WIDE).panels[0]?.lanes[0]?.path.match(/M/g)?.length ?? 0;
    expect(lane(run([10]))).toBe(2);
    expect(lane({ ...run([10]), cases: cases(0, 10, { list: null }) })).toBe(0);
  });

  it('splits nothing and loses nothing of a window of forty on a phone', () => {
    const panels = runPanels(run([20, 40, 40]), 280, NARROW);
    expect(panels.map(({ count }) => count)).toEqual([20, 40, 40]);
  });

  it.each([NARROW, WIDE] as const)('covers no case with the words beside one, at %d px', (width) => {
    const crowd = cases(0, 60).map((each, at) => ({
      ...each,
      ratio: 1 + 0.25 * Math.sin(at * 1.7),
      ...(at === 50 ? { mark: 'shorter' } : at === 54 ? { mark: 'longer' } : {}),
    }));
    const drawing = drawn(run([60], { cases: crowd, limits: null }), width);
    const words = drawing.panels.flatMap(({ segments }) => segments.flatMap(({ marked }) => marked));
    expect(words.map(({ text }) => text)).toEqual(['shorter', 'longer']);
    const boxes = words.map(({ x, y, text, anchor }) => {
      const wide = textWidth(text, drawing.small, true);
      const left = anchor === 'start' ? x : anchor === 'end' ? x - wide : x - wide / 2;
      return { left, right: left + wide, top: y - 10, bottom: y + 2 };
    });
    for (const box of boxes)
      for (const { x, y } of drawing.points.flat())
        expect(x > box.left && x < box.right && y > box.top && y < box.bottom).toBe(false);
    const [a, b] = boxes;
    expect(a!.right < b!.left || b!.right < a!.left || a!.bottom < b!.top || b!.bottom < a!.top).toBe(true);
  });
});
