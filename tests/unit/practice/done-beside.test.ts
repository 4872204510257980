import { describe, expect, it } from 'vitest';
import { doneBeside } from '../../../src/lib/practice';

const cases = (done: boolean, percents: readonly number[]) => percents.map((percent) => ({ done, percent }));

describe('what was done beside the times', () => {
  it('says nothing with fewer than eight on either side', () => {
    expect(doneBeside([...cases(true, Array(7).fill(80)), ...cases(false, Array(30).fill(100))])).toBeNull();
    expect(doneBeside([])).toBeNull();
  });
  it('gives the ratio of the two with its interval', () => {
    const not = [90, 95, 100, 105, 110, 98, 102, 101];
    const found = doneBeside([
      ...cases(
        true,
        not.map((percent) => percent * 0.8),
      ),
      ...cases(false, not),
    ]);
    // All 64 differences of logarithms are symmetric about log 0.8, so their median is that exactly.
    expect(found?.ratio).toBeCloseTo(0.8, 10);
    expect(found?.low).toBeLessThan(0.8);
    expect(found?.high).toBeGreaterThan(0.8);
    expect(found).toMatchObject({ done: 8, not: 8 });
  });
});
