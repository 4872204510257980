import { describe, expect, it } from 'vitest';
import { tallyStrokes } from '../../../src/lib/charts/tally';

describe('tally strokes', () => {
  it('draws one stroke a case', () => {
    for (const count of [0, 1, 4, 5, 13, 40]) expect(tallyStrokes(count).strokes).toHaveLength(count);
  });

  it('sets every fifth stroke across the four before it', () => {
    const { strokes } = tallyStrokes(5);
    const [across] = strokes.slice(4);
    const upright = strokes.slice(0, 4);
    upright.forEach((stroke) => {
      expect(Math.min(across?.x1 ?? 99, across?.x2 ?? 99)).toBeLessThan(stroke.x1);
      expect(Math.max(across?.x1 ?? 0, across?.x2 ?? 0)).toBeGreaterThan(stroke.x1);
    });
  });

  it('stays inside its own width', () => {
    const { strokes, width, height } = tallyStrokes(17);
    for (const { x1, x2, y1, y2 } of strokes) {
      expect(Math.min(x1, x2)).toBeGreaterThanOrEqual(0);
      expect(Math.max(x1, x2)).toBeLessThanOrEqual(width);
      expect(Math.max(y1, y2)).toBeLessThanOrEqual(height);
    }
  });

  it('counts nothing for what is no count', () => {
    expect(tallyStrokes(Number.NaN).strokes).toEqual([]);
    expect(tallyStrokes(-3).strokes).toEqual([]);
  });
});
