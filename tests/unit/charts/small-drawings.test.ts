import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellSheet } from '../../../src/lib/charts/cell-sheet';
import { cellStrip, type CellKind } from '../../../src/lib/charts/cells';
import { axisFor, CHANGE_AXES, CHANGE_AXIS, PATTERN_AXES, PATTERN_AXIS } from '../../../src/lib/charts/dot-axes';
import { beyondSentences } from '../../../src/lib/charts/dot-beyond';
import { dotRows, type DotRow } from '../../../src/lib/charts/dot-rows';
import { NARROW, WIDE } from '../../../src/lib/charts/drawn';
import { hatchPath } from '../../../src/lib/charts/shapes';
import { fitText, textWidth, wrapText } from '../../../src/lib/charts/text-fit';
import { nearestPoint, stepThrough } from '../../../src/lib/charts/walk';

const row = (id: string, ratio: number, low: number, high: number): DotRow => ({
  id,
  label: 'against the rest of the operation',
  under: '20 against 40',
  ratio,
  low,
  high,
  words: '18 % less (9 to 26 % less)',
  bold: false,
});

describe('dot and line', () => {
  it('leaves out what is no ratio and says so when nothing is left', () => {
    expect(dotRows([row('a', NaN, 1, 1), row('b', 1, -1, 2)], CHANGE_AXIS, WIDE).kind).toBe('cannot-draw');
    const drawing = dotRows([row('a', NaN, 1, 1), row('b', 1, 0.9, 1.1)], CHANGE_AXIS, WIDE);
    expect(drawing.kind === 'drawing' && drawing.rows.map(({ id }) => id)).toEqual(['b']);
  });

  it('marks an end of the interval that lies beyond the axis', () => {
    const drawing = dotRows([row('a', 1.9, 1.3, 2.8), row('b', 1.2, 1.1, 1.3)], PATTERN_AXIS, WIDE);
    if (drawing.kind !== 'drawing') throw new Error(drawing.because);
    expect(drawing.rows[0]?.ends).not.toBe('');
    expect(drawing.rows[1]?.ends).toBe('');
  });

  it('widens the axis until every interval stands on it, and only then', () => {
    expect(axisFor([row('a', 1.3, 0.8, 1.9)], PATTERN_AXES)).toBe(PATTERN_AXIS);
    const fallen = [row('a', 1.3, 1.1, 1.5), row('over-time', 0.6, 0.52, 0.66)];
    const axis = axisFor(fallen, PATTERN_AXES);
    expect(axis.domain).toEqual([0.5, 2]);
    const drawing = dotRows(fallen, axis, NARROW);
    if (drawing.kind !== 'drawing') throw new Error(drawing.because);
    const [, last] = drawing.rows;
    expect(last).toMatchObject({ beyond: false, ends: '' });
    expect(last?.line.to).toBeGreaterThan(last?.line.from ?? Infinity);
  });

  it('says in a sentence the numbers of every row an arrow stands for, and of no other', () => {
    const trend = {
      ...row('over-time', 0.3, 0.2, 0.45),
      label: 'the latest of these cases',
      under: 'the latest 50 against the 50 before them',
      words: 'about 0.3 times as long (0.2 to 0.45)',
    };
    const rows = [row('a', 1.3, 1.1, 1.5), trend, row('b', NaN, 1, 1)];
    expect(beyondSentences(rows, axisFor(rows, PATTERN_AXES))).toEqual([
      'Beyond the axis: the latest of these cases, about 0.3 times as long (0.2 to 0.45); the latest 50 against the 50 before them.',
    ]);
    const drawing = dotRows(rows, axisFor(rows, PATTERN_AXES), WIDE);
    if (drawing.kind !== 'drawing') throw new Error(drawing.because);
    expect(drawing.rows.map(({ ends }) => ends !== '')).toEqual([false, true]);
    expect(beyondSentences([row('a', 1.3, 1.1, 1.5)], PATTERN_AXIS)).toEqual([]);
  });

  it('beyond the widest axis draws an arrow, and prints the numbers beside it', () => {
    const far = { ...row('a', 0.1, 0.05, 0.2), words: 'about 0.1 times as long (0.05 to 0.2)' };
    for (const axes of [PATTERN_AXES, CHANGE_AXES]) {
      const drawing = dotRows([far], axisFor([far], axes), WIDE);
      if (drawing.kind !== 'drawing') throw new Error(drawing.because);
      expect(drawing.rows[0]?.beyond).toBe(true);
      expect(drawing.rows[0]?.ends).not.toBe('');
      expect(drawing.rows[0]?.words.map(({ text }) => text).join(' ')).toContain('(0.05 to 0.2)');
    }
    expect(axisFor([row('a', NaN, -1, 0)], PATTERN_AXES)).toBe(PATTERN_AXIS);
  });

  it('keeps the words over an axis apart, on a phone too', () => {
    for (const axis of [...PATTERN_AXES, ...CHANGE_AXES]) {
      const drawing = dotRows([row('a', 1, 1, 1)], axis, NARROW);
      if (drawing.kind !== 'drawing') throw new Error(drawing.because);
      const ends = drawing.ticks.map(({ at, label }) => {
        const half = textWidth(label, drawing.small) / 2;
        return [at - half, at + half] as const;
      });
      expect(ends[0]?.[0], JSON.stringify(axis)).toBeGreaterThanOrEqual(0);
      ends
        .slice(1)
        .forEach(([from], index) => expect(from, JSON.stringify(axis)).toBeGreaterThan(ends[index]?.[1] ?? 0));
    }
  });

  it('stays inside its width, whatever the numbers', () => {
    const ratio = fc.double({ min: 0.01, max: 100, noNaN: true });
    fc.assert(
      fc.property(ratio, ratio, ratio, fc.constantFrom(NARROW, WIDE), (a, b, c, width) => {
        const [low, middle, high] = [a, b, c].sort((x, y) => x - y) as [number, number, number];
        const drawing = dotRows([row('a', middle, low, high)], CHANGE_AXIS, width);
        if (drawing.kind !== 'drawing') throw new Error(drawing.because);
        const { line } = drawing.rows[0] ?? { line: { from: NaN, to: NaN } };
        expect(line.from).toBeGreaterThanOrEqual(0);
        expect(line.to).toBeLessThanOrEqual(width);
        expect(line.from).toBeLessThanOrEqual(line.to);
      }),
    );
  });
});

describe('cells', () => {
  it('wraps at twenty, so that a letter keeps its size on a phone', () => {
    const cells = Array.from({ length: 41 }, () => ({ kind: 'open' as CellKind, say: '' }));
    const strip = cellStrip(cells);
    expect(strip.width).toBeLessThanOrEqual(NARROW);
    expect(strip.points.map((line) => line.length)).toEqual([20, 20, 1]);
  });

  it('tells six kinds apart by shape alone', () => {
    const looks = (['filled', 'half', 'open', 'dot', 'event', 'not-answered', 'blank'] as const).map((kind) => {
      const { outlines, fills, blanks, letters } = cellStrip([{ kind, say: '' }]);
      return JSON.stringify([outlines, fills, blanks, letters.map(({ text }) => text)]);
    });
    expect(new Set(looks).size).toBe(7);
  });

  it('on one sheet stand under each other, each with its name and count', () => {
    const cells = Array.from({ length: 25 }, () => ({ kind: 'filled' as CellKind, say: '' }));
    const rows = ['a', 'b'].map((id) => ({ id, label: `row ${id}`, cells, words: 'done in 25 of 25' }));
    const { rows: drawn, height } = cellSheet(rows);
    const order = drawn.flatMap(({ label, at, strip, words }) => [
      label[0]?.y ?? NaN,
      at,
      at + strip.height,
      words[0]?.y ?? NaN,
    ]);
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(height).toBeGreaterThan(order[order.length - 1] ?? Infinity);
    expect(cellSheet([]).rows).toEqual([]);
  });

  it('draws nothing of nothing', () => {
    expect(cellStrip([])).toMatchObject({ width: 0, height: 0, points: [] });
  });
});

describe('words in a drawing', () => {
  it('are cut where they would not fit, and wrapped between words', () => {
    expect(fitText('Wound check', 200, 14)).toBe('Wound check');
    expect(textWidth(fitText('Viscoelastic removal behind the lens', 90, 14), 14)).toBeLessThanOrEqual(90);
    expect(wrapText('usual less one in five', 80, 12)).toEqual(['usual less', 'one in five']);
  });

  it('keep a number with its unit', () => {
    expect(wrapText('18 % less', 40, 12)).toEqual(['18\u00a0%', 'less']);
  });
});

describe('hatching', () => {
  it('stays inside its box', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200 }), fc.integer({ min: 1, max: 12 }), (width, height) => {
        const numbers = (hatchPath(10, 20, width, height).match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
        numbers.forEach((value, at) => {
          const [from, to] = at % 2 === 0 ? [10, 10 + width] : [20, 20 + height];
          expect(value).toBeGreaterThanOrEqual(from - 0.05);
          expect(value).toBeLessThanOrEqual(to + 0.05);
        });
      }),
    );
    expect(hatchPath(0, 0, NaN, 5)).toBe('');
  });
});

describe('walking the points with the keys', () => {
  const points = [
    [],
    [
      { x: 0, y: 0, say: 'a' },
      { x: 10, y: 0, say: 'b' },
    ],
    [],
    [{ x: 9, y: 20, say: 'c' }],
  ];
  it('starts at the first there is', () => {
    expect(stepThrough(points, { row: 0, at: 0 }, null)).toEqual({ row: 1, at: 0 });
    expect(stepThrough([[], []], { row: 0, at: 0 }, null)).toBeNull();
  });
  it('goes along a row, over empty rows, and stays at the ends', () => {
    expect(stepThrough(points, { row: 1, at: 0 }, 'ArrowRight')).toEqual({ row: 1, at: 1 });
    expect(stepThrough(points, { row: 1, at: 1 }, 'ArrowRight')).toEqual({ row: 1, at: 1 });
    expect(stepThrough(points, { row: 1, at: 1 }, 'ArrowDown')).toEqual({ row: 3, at: 0 });
    expect(stepThrough(points, { row: 3, at: 0 }, 'ArrowUp')).toEqual({ row: 1, at: 1 });
    expect(stepThrough(points, { row: 1, at: 1 }, 'ArrowUp')).toEqual({ row: 1, at: 1 });
    expect(stepThrough(points, { row: 1, at: 1 }, 'Home')).toEqual({ row: 1, at: 0 });
  });
  it('leaves other keys to the page', () => {
    expect(stepThrough(points, { row: 1, at: 1 }, 'Tab')).toBeNull();
  });
  it('finds the nearest point within reach only', () => {
    expect(nearestPoint(points, 8, 18, 5)).toEqual({ row: 3, at: 0 });
    expect(nearestPoint(points, 100, 100, 5)).toBeNull();
  });
});
