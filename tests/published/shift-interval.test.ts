import { describe, expect, it } from 'vitest';
import { shiftInterval } from '../../src/lib/statistics';

describe('Hodges-Lehmann shift with its interval', () => {
  it('permeability (Hollander and Wolfe 1973, p. 69): R 4.2.2 wilcox.test(x, y, conf.int = TRUE) gives 0.305, -0.15 to 0.76', () => {
    const x = [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46];
    const y = [1.15, 0.88, 0.9, 0.74, 1.21];
    const found = shiftInterval(x, y);
    expect(found.method).toBe('exact');
    expect(found.estimate).toBeCloseTo(0.305, 12);
    expect(found.low).toBeCloseTo(-0.15, 12);
    expect(found.high).toBeCloseTo(0.76, 12);
  });
  it('turns round when the groups are exchanged, and moves with a shift', () => {
    const [x, y] = [
      [1, 4, 2, 8, 5, 7, 3, 9],
      [2.5, 6.5, 0.5, 3.5, 1.5, 4.5, 5.5, 7.5],
    ];
    const [one, other, moved] = [
      shiftInterval(x, y),
      shiftInterval(y, x),
      shiftInterval(
        x.map((v) => v + 10),
        y,
      ),
    ];
    expect([other.low, other.estimate, other.high]).toEqual([-one.high, -one.estimate, -one.low]);
    expect(moved.estimate - one.estimate).toBeCloseTo(10, 9);
    expect(moved.low - one.low).toBeCloseTo(10, 9);
  });
});
