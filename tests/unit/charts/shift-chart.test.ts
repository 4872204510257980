import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NARROW, WIDE, type Width } from '../../../src/lib/charts/drawn';
import { LEAST_PER_CASE } from '../../../src/lib/charts/run-panels';
import { shiftChart, type ShiftDrawing } from '../../../src/lib/charts/shift-chart';
import type { ShiftInput } from '../../../src/lib/charts/shift-input';
import { textWidth } from '../../../src/lib/charts/text-fit';

const average = (values: readonly number[], over: Partial<ShiftInput> = {}): ShiftInput => ({
  unit: 'ratio',
  cases: values.map((value, index) => ({ id: `c${index}`, period: 0, said: `case ${index}`, at: [value] })),
  periods: [{ id: '1', label: 'next twenty' }],
  lines: [''],
  limits: [
    { name: 'limit', at: values.map(() => 1.3) },
    { name: 'limit', at: values.map(() => 1 / 1.3) },
  ],
  signal: null,
  ...over,
});
const sums = (high: readonly number[], low: readonly number[]): ShiftInput => ({
  ...average(high),
  unit: 'sd',
  cases: high.map((value, index) => ({ id: `c${index}`, period: 0, said: '', at: [value, -(low[index] ?? 0)] })),
  lines: ['longer', 'shorter'],
  limits: [
    { name: 'limit', at: high.map(() => 5) },
    { name: 'limit', at: high.map(() => -5) },
  ],
});
function drawn(input: ShiftInput, width: Width = WIDE): ShiftDrawing {
  const drawing = shiftChart(input, width);
  if (drawing.kind === 'cannot-draw') throw new Error(drawing.because);
  return drawing;
}
const pieces = (path = '') => path.match(/M/g)?.length ?? 0;
const twenty = Array.from({ length: 20 }, (_, index) => 1 - index / 100);

describe('a chart that adds neighbours up', () => {
  it('says why it cannot be drawn', () => {
    for (const values of [[], [NaN], [NaN, Infinity], [0, -1]])
      expect(shiftChart(average(values), WIDE)).toMatchObject({ kind: 'cannot-draw', because: expect.any(String) });
    expect(shiftChart({ ...average([]), lines: [] }, NARROW).kind).toBe('cannot-draw');
  });

  it('draws a single point as a mark, since a line of one point cannot be seen', () => {
    const [panel] = drawn(average([1.1])).panels;
    expect(pieces(panel?.lines[0]?.dots)).toBe(1);
    expect(panel?.limits.every((path) => path.includes('H'))).toBe(true);
  });

  it('breaks the line where a value is missing, and keeps the place of its case', () => {
    const { panels, points } = drawn(average([1, 1.1, NaN, 0.9, 1]));
    expect(pieces(panels[0]?.lines[0]?.path)).toBe(2);
    expect(pieces(panels[0]?.lines[0]?.dots)).toBe(4);
    expect(points[0]).toHaveLength(5);
    expect(panels[0]?.lines[0]?.path).not.toContain('NaN');
  });

  it('puts longer higher, for an average and for both sums', () => {
    const [longer, shorter] = drawn(average([1.2, 0.8])).points[0] ?? [];
    expect(longer?.y).toBeLessThan(shorter?.y ?? 0);
    const [up, down] = drawn(sums([3, 0], [0, 3])).points[0] ?? [];
    expect(up?.y).toBeLessThan(down?.y ?? 0);
  });

  it('draws a sum as far down as up, and no number without its sign of direction', () => {
    const [panel] = drawn(sums([3, 0], [0, 3])).panels;
    const ticks = panel?.ticks ?? [];
    expect(ticks.filter(({ centre }) => centre)).toHaveLength(1);
    expect(ticks.map(({ label }) => label)).toEqual([...ticks.map(({ label }) => label)].reverse());
    expect(panel?.names.map(({ text }) => text)).toEqual(['limit', 'longer', 'shorter', 'limit']);
  });

  it('takes the narrowest axis that holds values and limits, and an edge mark beyond the widest', () => {
    const labels = (values: number[]) => drawn(average(values)).panels[0]?.ticks.map(({ label }) => label);
    expect(labels(twenty)).toContain('85');
    expect(labels([0.5])).toContain('200');
    expect(labels([0.5])).not.toContain('25');
    const [panel] = drawn(average([0.01, 1])).panels;
    expect(pieces(panel?.beyond)).toBe(1);
    expect(pieces(panel?.lines[0]?.dots)).toBe(1);
  });

  it('rings the case that is named, and only in its own row of cases', () => {
    const many = Array.from({ length: 100 }, () => 1);
    const drawing = drawn(average(many, { signal: { index: 70, line: 0, words: 'A71' } }), NARROW);
    const ringed = drawing.panels.filter(({ signal }) => signal !== null);
    expect(drawing.panels.length).toBeGreaterThan(1);
    expect(ringed).toHaveLength(1);
    expect(ringed[0]?.signal?.words.text).toBe('A71');
    const nameOf = (value: number) => {
      const { panels, points } = drawn(average([1, value], { signal: { index: 1, line: 0, words: 'A2' } }));
      return { ring: points[0]?.[1]?.y ?? NaN, signal: panels[0]?.signal };
    };
    const low = nameOf(0.85);
    expect(low.signal?.words.y).toBeGreaterThan(low.ring);
    expect(low.signal?.leader).not.toBe('');
    const atEdge = nameOf(0.67);
    expect(atEdge.signal?.words.y).toBeLessThan(atEdge.ring);
    expect(atEdge.signal?.leader).toBe('');
    expect(drawn(average([NaN, 1], { signal: { index: 0, line: 0, words: 'A1' } })).panels[0]?.signal).toBeNull();
  });

  it('sets the names of lines that end together apart, beside the plot', () => {
    const level = { ...sums([0, 0.1], [0, 0.1]), limits: [{ name: 'limit', at: [0.2, 0.2] }] };
    const drawing = drawn(level, NARROW);
    const names = drawing.panels[0]?.names ?? [];
    expect(names).toHaveLength(3);
    names.slice(1).forEach(({ y }, index) => expect(y - (names[index]?.y ?? y)).toBeGreaterThanOrEqual(drawing.small));
    for (const { x, text } of names) {
      expect(x).toBeGreaterThan(drawing.right);
      expect(x + textWidth(text, drawing.small)).toBeLessThanOrEqual(NARROW);
    }
  });

  it('does not draw a line along the edge for what lies beyond it', () => {
    const [panel] = drawn(average([1, 0.01, 0.01, 1])).panels;
    expect(pieces(panel?.lines[0]?.path)).toBe(2);
    expect(pieces(panel?.beyond)).toBe(2);
  });

  it('brackets each period with its name', () => {
    const input = average([1, 1, 1, 1, 1, 1, 1, 1], {
      periods: ['next twenty', 'following 20'].map((label, id) => ({ id: String(id), label })),
    });
    const two = { ...input, cases: input.cases.map((each, index) => ({ ...each, period: index < 4 ? 0 : 1 })) };
    const [panel] = drawn(two).panels;
    expect(panel?.brackets.map(({ name }) => name.text)).toEqual(['next twenty', 'following 20']);
    expect(panel?.breaks).toHaveLength(1);
    const long = { ...two, periods: two.periods.map(({ id }) => ({ id, label: 'second twenty after it' })) };
    for (const { path, name } of drawn(long, NARROW).panels[0]?.brackets ?? []) {
      const [from, to] = [/M([\d.]+)/, /H([\d.]+)/].map((pattern) => Number(pattern.exec(path)?.[1]));
      expect(name.x - textWidth(name.text, 12) / 2).toBeGreaterThanOrEqual((from ?? NaN) - 0.1);
      expect(name.x + textWidth(name.text, 12) / 2).toBeLessThanOrEqual((to ?? NaN) + 0.1);
      expect(name.anchor).toBe('middle');
    }
  });

  it('never throws, never draws outside its width, and gives every case its place and room', () => {
    const value = fc.oneof(fc.double(), fc.constantFrom(0, -1, NaN, Infinity, -Infinity, 1e308, 1e-308));
    fc.assert(
      fc.property(
        fc.array(value, { maxLength: 150 }),
        fc.array(value, { maxLength: 150 }),
        fc.constantFrom('ratio' as const, 'sd' as const),
        fc.constantFrom(NARROW, WIDE),
        (values, limit, unit, width) => {
          const drawing = shiftChart({ ...average(values), unit, limits: [{ name: 'limit', at: limit }] }, width);
          if (drawing.kind === 'cannot-draw') return;
          expect(JSON.stringify(drawing)).not.toMatch(/NaN|Infinity|null,"y"/);
          expect(drawing.points.flat()).toHaveLength(values.length);
          for (const row of drawing.points)
            row.forEach(({ x, y }, index) => {
              expect(x).toBeGreaterThan(drawing.left - 0.1);
              expect(x).toBeLessThan(drawing.right + 0.1);
              expect(y).toBeGreaterThanOrEqual(0);
              expect(y).toBeLessThanOrEqual(drawing.height + 0.1);
              const before = row[index - 1];
              if (before) expect(x - before.x).toBeGreaterThanOrEqual(LEAST_PER_CASE - 0.11);
            });
        },
      ),
      { numRuns: 200 },
    );
  });
});
