import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placeInTime } from '../../src/lib/server/storage/place-in-time';

const at = (sequence: number, date: string | null = null) => ({ sequence, date });

describe('the place of cases that join a record', () => {
  it('is after everything where no day is known', () => {
    expect(placeInTime([], [{ date: null }, { date: null }])).toEqual([1, 2]);
    expect(placeInTime([at(3, '2026-03-02'), at(1)], [{ date: null }])).toEqual([4]);
  });

  it('is between those of an earlier and a later day, without moving either', () => {
    const there = [at(1, '2026-03-02'), at(2, '2026-03-16')];
    expect(placeInTime(there, [{ date: '2026-03-09' }, { date: '2026-03-09' }, { date: '2026-03-23' }])).toEqual([
      1 + 1 / 3,
      1 + 2 / 3,
      3,
    ]);
    expect(placeInTime(there, [{ date: '2026-02-01' }])).toEqual([0.5]);
  });

  it('is after those of the same day', () => {
    expect(placeInTime([at(1, '2026-03-02'), at(2, '2026-03-02')], [{ date: '2026-03-02' }])).toEqual([3]);
  });

  it('is never that of another case, and keeps days in order', () => {
    const day = fc.integer({ min: 1, max: 28 }).map((n) => `2026-03-${String(n).padStart(2, '0')}`);
    const days = fc.array(day, { maxLength: 12 }).map((all) => all.sort());
    fc.assert(
      fc.property(fc.array(days, { minLength: 1, maxLength: 5 }), (files) => {
        const there: { sequence: number; date: string }[] = [];
        for (const file of files) {
          const places = placeInTime(there, file.map((date) => ({ date }))); // prettier-ignore
          there.push(...file.map((date, index) => ({ date, sequence: places[index] ?? NaN })));
        }
        expect(new Set(there.map(({ sequence }) => sequence)).size).toBe(there.length);
        const inOrder = [...there].sort((a, b) => a.sequence - b.sequence).map(({ date }) => date);
        expect(inOrder).toEqual([...inOrder].sort());
      }),
      { seed: 1 },
    );
  });
});
