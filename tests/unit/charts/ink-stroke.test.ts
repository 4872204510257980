import { describe, expect, it } from 'vitest';
import { inkStroke } from '../../../src/lib/charts/ink-stroke';

const pointsOf = (path: string) =>
  [...path.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);

describe('a stroke of ink', () => {
  it('stays within its width of the line between its ends', () => {
    const points = pointsOf(inkStroke({ x1: 10, y1: 5, x2: 10, y2: 45 }, 3, 1));
    expect(points.length).toBeGreaterThan(10);
    for (const [x = NaN, y = NaN] of points) {
      expect(Math.abs(x - 10)).toBeLessThanOrEqual(2);
      expect(y).toBeGreaterThanOrEqual(4.5);
      expect(y).toBeLessThanOrEqual(45.5);
    }
  });

  it('is thinner at its ends than in its middle', () => {
    const points = pointsOf(inkStroke({ x1: 0, y1: 0, x2: 0, y2: 40 }, 4, 2));
    const widthAt = (wanted: number) => {
      const xs = points.filter(([, y = NaN]) => Math.abs(y - wanted) < 0.5).map(([x = NaN]) => x);
      return Math.max(...xs) - Math.min(...xs);
    };
    expect(widthAt(0)).toBeLessThan(widthAt(20));
    expect(widthAt(40)).toBeLessThan(widthAt(20));
  });

  it('is the same every time, and another for another seed', () => {
    const ends = { x1: 0, y1: 0, x2: 20, y2: 40 };
    expect(inkStroke(ends, 3, 5)).toBe(inkStroke(ends, 3, 5));
    expect(inkStroke(ends, 3, 5)).not.toBe(inkStroke(ends, 3, 6));
  });

  it('draws nothing where there is no line', () => {
    expect(inkStroke({ x1: 1, y1: 1, x2: 1, y2: 1 }, 3, 1)).toBe('');
    expect(inkStroke({ x1: 1, y1: NaN, x2: 1, y2: 1 }, 3, 1)).toBe('');
  });
});
