import { describe, expect, it } from 'vitest';
import { intraclass, mean, randomStream, sampleSd } from '../../../src/lib/statistics';

describe('intraclass correlation', () => {
  it('six targets, four judges: ICC(1,1) = 0.17 (Shrout and Fleiss, Psychol. Bull. 1979;86:420, Table 2; from memory)', () => {
    const targets = [
      [9, 2, 5, 8],
      [6, 1, 3, 2],
      [8, 4, 6, 8],
      [7, 1, 2, 6],
      [10, 5, 6, 9],
      [6, 2, 4, 7],
    ];
    const { icc, m0, groups } = intraclass(
      targets.flat(),
      targets.flatMap((target, i) => target.map(() => i)),
    );
    expect(icc).toBeCloseTo(0.17, 2);
    // Mean squares 11.24 between and 6.26 within, as printed there.
    expect(icc).toBeCloseTo((11.24 - 6.26) / (11.24 + 3 * 6.26), 3);
    expect({ m0, groups }).toEqual({ m0: 4, groups: 6 });
  });

  it('unequal groups: the same mean squares by hand', () => {
    // Groups (1, 3), (5), (6, 8, 10): means 2, 5, 8, all 5.5; between 24.5 + 0.25 + 18.75, within 2 + 0 + 8.
    const { icc, m0, deff } = intraclass([1, 3, 5, 6, 8, 10], [4, 4, 9, 2, 2, 2]);
    const size = (6 - (4 + 1 + 9) / 6) / 2;
    const between = 43.5 / 2;
    const within = 10 / 3;
    expect(m0).toBeCloseTo(size, 12);
    expect(icc).toBeCloseTo((between - within) / (between + (size - 1) * within), 12);
    expect(deff).toBeCloseTo(1 + (size - 1) * icc, 12);
  });

  it('finds the share that was put in, and the design effect that makes a mean honest', () => {
    const means: number[] = [];
    let found = 0;
    let said = 0;
    const runs = 400;
    for (let run = 0; run < runs; run++) {
      const chance = randomStream(6, run);
      const lists = Array.from({ length: 12 }, () => chance.normal() * Math.sqrt(0.2));
      const group = Int32Array.from({ length: 60 }, (_, i) => Math.floor(i / 5));
      const values = Array.from(group, (list) => lists[list]! + chance.normal() * Math.sqrt(0.8));
      const { icc, deff } = intraclass(values, group);
      found += icc / runs;
      said += (sampleSd(values) ** 2 * deff) / 60 / runs;
      means.push(mean(values));
    }
    expect(Math.abs(found - 0.2)).toBeLessThan(0.03);
    expect(Math.abs(Math.sqrt(said) / sampleSd(means) - 1)).toBeLessThan(0.12);
  });

  it('lists of one case, one list, or values all equal: no effect', () => {
    expect(intraclass([1, 5, 2], [1, 2, 3])).toEqual({ icc: 0, m0: 1, deff: 1, groups: 3 });
    expect(intraclass([1, 5, 2], [1, 1, 1])).toEqual({ icc: 0, m0: 3, deff: 1, groups: 1 });
    expect(intraclass([0.1, 0.1, 0.1, 0.1], [1, 1, 2, 2])).toMatchObject({ icc: 0, deff: 1 });
    expect(intraclass([1, 9, 1, 9], [1, 1, 2, 2]).deff).toBe(1);
  });
});
