import { describe, expect, it } from 'vitest';
import type { ChooseInput, ChooseRow } from '../../../src/lib/charts/choose-input';
import { chooseRows, type ChooseDrawing } from '../../../src/lib/charts/choose-rows';
import { NARROW, WIDE, type Width } from '../../../src/lib/charts/drawn';

const row = (id: string, over: Partial<ChooseRow> = {}): ChooseRow => ({
  id,
  href: `/choose/${id}`,
  label: id,
  usual: '1:23',
  certainty: '',
  suggested: false,
  dots: [0.8, 1, 1.2].map((ratio, index) => ({ code: `A${index}`, ratio, said: '1:20' })),
  range: { low: 0.8, high: 1.25, said: 'usual range 1:04 to 1:40' },
  reference: null,
  bar: {
    seconds: 12,
    withEye: 0,
    saidWithEye: '',
    low: 8,
    high: 20,
    said: '12 s',
    told: 'usual less one in five 12 s',
  },
  instead: null,
  waiting: null,
  ...over,
});
const input = (rows: ChooseRow[], over: Partial<ChooseInput> = {}): ChooseInput => ({
  rows,
  column: 'seconds',
  named: null,
  seed: 1,
  ...over,
});
function drawn(given: ChooseInput, width: Width = WIDE): ChooseDrawing {
  const drawing = chooseRows(given, width);
  if (drawing.kind === 'cannot-draw') throw new Error(drawing.because);
  return drawing;
}

describe('rows of the Choose drawing', () => {
  it('says why when there is nothing to draw', () => {
    expect(chooseRows(input([]), WIDE)).toEqual({ kind: 'cannot-draw', because: 'No step has been timed yet.' });
  });

  it('keeps the order of the operation, whatever the view', () => {
    const rows = [row('b'), row('a', { suggested: true }), row('c')];
    for (const column of ['seconds', 'spread', 'reference'] as const)
      expect(drawn(input(rows, { column })).rows.map(({ id }) => id)).toEqual(['b', 'a', 'c']);
    expect(drawn(input(rows, { column: 'spread' })).rows).toEqual(drawn(input(rows)).rows);
  });

  it('lays rows under each other without a gap or an overlap', () => {
    for (const width of [NARROW, WIDE] as const) {
      const { rows, height, layout } = drawn(
        input([row('a', { certainty: 'first nearly every time', suggested: true }), row('b'), row('c')]),
        width,
      );
      // One pitch, and the words of every row at the same height over its dots, a sub-label or not.
      for (const { top, height: high, middle, label } of rows)
        expect([high, middle - top, label.y - top]).toEqual([layout.pitch, layout.middle, layout.baseline]);
      rows.slice(1).forEach((each, index) => {
        const before = rows[index];
        expect(each.top).toBeCloseTo((before?.top ?? 0) + (before?.height ?? 0), 6);
      });
      const last = rows[rows.length - 1];
      expect(height).toBeGreaterThanOrEqual((last?.top ?? 0) + (last?.height ?? 0));
    }
  });

  it('leaves out what is no time, and draws no NaN', () => {
    const bad = row('a', {
      dots: [NaN, -1, 0, Infinity, 1].map((ratio, index) => ({ code: `A${index}`, ratio, said: '' })),
      range: { low: NaN, high: 1, said: '' },
      reference: { ratio: 0, said: 'x' },
      bar: { seconds: NaN, withEye: 0, saidWithEye: '', low: NaN, high: NaN, said: 'x', told: 'x' },
      waiting: { seconds: NaN, said: 'x' },
    });
    const drawing = drawn(input([bad]));
    expect(JSON.stringify(drawing)).not.toMatch(/NaN|null,null/);
    expect(drawing.points[0]).toHaveLength(1);
    expect(drawing.rows[0]).toMatchObject({ range: null, reference: null, bar: null, waiting: null });
  });

  it('holds a case beyond the axis at its edge, with an arrow instead of a dot', () => {
    const { rows, layout } = drawn(input([row('a', { dots: [{ code: 'A', ratio: 9, said: '9:00' }] })]));
    expect(rows[0]?.dots).toBe('');
    expect(rows[0]?.beyond).toContain('M');
    expect(layout.strip[1]).toBeLessThan(layout.bar[0]);
  });

  it('writes a reference outside the axis at the edge, and inside it only draws it', () => {
    const outside = drawn(input([row('a', { reference: { ratio: 0.2, said: 'reference 0:16' } })]));
    expect(outside.rows[0]?.reference?.edge).toMatchObject({ text: 'reference 0:16', anchor: 'start' });
    const inside = drawn(input([row('a', { reference: { ratio: 0.7, said: 'reference 0:58' } })]));
    expect(inside.rows[0]?.reference?.edge).toBeNull();
  });

  it('puts words in place of the bar where a step is not to be shortened', () => {
    const [only] = drawn(input([row('a', { instead: 'not to be shortened' })])).rows;
    expect(only?.bar).toBeNull();
    expect(only?.instead.map(({ text }) => text).join(' ')).toBe('not to be shortened');
  });

  it('keeps bars and their numbers inside the drawing, on one scale from 0', () => {
    const long = { seconds: 300, withEye: 0, saidWithEye: '', low: 100, high: 900, said: '5 min 0 s', told: '' };
    for (const width of [NARROW, WIDE] as const) {
      const { rows, layout } = drawn(
        input([row('a', { bar: long }), row('b', { bar: { ...long, seconds: 150 } })]),
        width,
      );
      const [first, second] = rows.map(({ bar }) => bar);
      expect((first?.words.x ?? 0) + 40).toBeLessThanOrEqual(layout.bar[1] + 4);
      expect((first?.width ?? 0) / (second?.width ?? 1)).toBeCloseTo(2, 1);
    }
  });

  it('hatches what goes with the eye beyond the bar, on the same scale, its number behind where there is room', () => {
    const bar = { seconds: 20, withEye: 10, low: 12, high: 26, said: '20 s', saidWithEye: ' + 10 s', told: '' };
    for (const [width, words] of [
      [WIDE, '20 s + 10 s'],
      [NARROW, '20 s'],
    ] as const) {
      const { rows, layout } = drawn(input([row('a', { bar }), row('b')]), width);
      const drawnBar = rows[0]!.bar!;
      expect(drawnBar.eye!.outline.x).toBeCloseTo(drawnBar.x + drawnBar.width, 1);
      expect(drawnBar.eye!.outline.width / drawnBar.width).toBeCloseTo(0.5, 1);
      expect(drawnBar.words.text).toBe(words);
      expect(drawnBar.words.x).toBeGreaterThan(drawnBar.eye!.outline.x + drawnBar.eye!.outline.width);
      expect(drawnBar.words.x).toBeLessThan(layout.bar[1]);
      expect(rows[1]!.bar!.eye).toBeNull();
    }
  });

  it('never prints under 12 px on a phone, and reads every case out', () => {
    const drawing = drawn(input([row('a')]), NARROW);
    expect(Math.min(drawing.layout.size, drawing.layout.small)).toBeGreaterThanOrEqual(12);
    expect(drawing.points[0]?.map(({ say }) => say)).toEqual([
      'a, case A0: 1:20, 0.8 times your median when adjusted for the eye',
      'a, case A1: 1:20, 1 times your median when adjusted for the eye',
      'a, case A2: 1:20, 1.2 times your median when adjusted for the eye',
      'a, usual less one in five 12 s',
    ]);
  });

  it('reads the eye out with its case, where something of it is known', () => {
    const eyes = new Map([
      ['A0', 'nucleus hard, pupil small'],
      ['A1', ''],
    ]);
    expect(drawn(input([row('a', { range: null, bar: null })], { eyes })).points[0]?.map(({ say }) => say)).toEqual([
      'a, case A0: 1:20, 0.8 times your median when adjusted for the eye; nucleus hard, pupil small',
      'a, case A1: 1:20, 1 times your median when adjusted for the eye',
      'a, case A2: 1:20, 1.2 times your median when adjusted for the eye',
    ]);
  });

  it('draws the same picture from the same seed, and moves no row when one is added', () => {
    const alone = drawn(input([row('a')]));
    const more = drawn(input([row('a'), row('b')]));
    expect(more.rows[0]?.dots).toBe(alone.rows[0]?.dots);
    expect(drawn(input([row('a')], { seed: 2 })).rows[0]?.dots).not.toBe(alone.rows[0]?.dots);
  });
});
