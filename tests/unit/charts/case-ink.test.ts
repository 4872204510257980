import { describe, expect, it } from 'vitest';
import { caseInk, type InkPart } from '../../../src/lib/charts/case-ink';

const step = (initial: string, seconds: number, start: number | null = null): InkPart => ({
  kind: 'step',
  initial,
  seconds,
  start,
});
const drawn = (parts: readonly InkPart[]) => {
  const ink = caseInk(parts, 362);
  if (ink.kind !== 'ink') throw new Error(ink.because);
  return ink;
};

describe('case ink', () => {
  it('gives widths in proportion to the lengths', () => {
    const { marks } = drawn([step('S', 30), step('N', 90)]);
    expect(marks.map(({ x, width }) => [x, width])).toEqual([
      [1, 90],
      [91, 270],
    ]);
  });

  it('fills the same width whatever the operation took: two drawings do not compare lengths', () => {
    const end = (parts: InkPart[]) => Math.max(...drawn(parts).marks.map(({ x, width }) => x + width));
    expect(end([step('S', 30), step('N', 90)])).toBeCloseTo(end([step('S', 300), step('N', 900)]));
  });

  it('places parts on their clock where every reading is known, leaving what lies between blank', () => {
    const { marks } = drawn([step('S', 30, 10), step('N', 30, 100)]);
    expect(marks[1]?.x).toBeCloseTo(1 + 90 * 3);
  });

  it('puts lengths one after the other when one reading is missing', () => {
    const { marks } = drawn([step('S', 30, 10), step('N', 30)]);
    expect(marks[1]?.x).toBeCloseTo(181);
  });

  it('hatches waiting only, inside its own width', () => {
    const { hatch, marks } = drawn([step('S', 30), { kind: 'waiting', initial: '', seconds: 30, start: null }]);
    expect(hatch.length).toBeGreaterThan(3);
    expect(Math.min(...hatch.map(({ x1 }) => x1))).toBeGreaterThanOrEqual((marks[1]?.x ?? 0) - 2);
  });

  it('leaves a letter out rather than setting it over its neighbour', () => {
    const { letters } = drawn([step('Sp', 1), step('Vf', 1), step('N', 300)]);
    expect(letters.map(({ text }) => text)).toContain('N');
    expect(letters.length).toBeLessThan(3);
    letters.slice(1).forEach((letter, index) => expect(letter.x - (letters[index]?.x ?? 0)).toBeGreaterThan(8));
  });

  it('says that it cannot draw without times, and never throws on bad numbers', () => {
    expect(caseInk([])).toEqual({ kind: 'cannot-draw', because: 'no times' });
    expect(caseInk([step('S', Number.NaN), step('N', -3)]).kind).toBe('cannot-draw');
  });
});
