import { describe, expect, it } from 'vitest';
import { breakSinceLatest, weeksBeforeLatest } from '../../../src/lib/rules/pauses';
import { listRecord } from '../../made-up/cases';

const on = (...dates: string[]) =>
  dates.map((date, place) => listRecord(place + 1, { when: { kind: 'date', date } as const }));

describe('weeksBeforeLatest', () => {
  it('counts whole weeks between the two latest days, in whatever order they stand', () => {
    expect(weeksBeforeLatest(on('2026-03-02', '2026-01-05', '2025-12-01'))).toBe(8);
    expect(weeksBeforeLatest(on('2026-01-05', '2026-03-01'))).toBe(7);
    expect(weeksBeforeLatest(on('2026-03-01', '2026-03-01', '2026-02-22'))).toBe(1);
  });

  it('is not known without two dated days', () => {
    expect(weeksBeforeLatest(on('2026-03-01', '2026-03-01'))).toBeNull();
    expect(
      weeksBeforeLatest([...on('2026-03-01'), listRecord(2, { when: { kind: 'month', month: '2025-11' } })]),
    ).toBeNull();
    expect(weeksBeforeLatest([])).toBeNull();
  });
});

describe('a break since the latest list', () => {
  it('is told after eight weeks, not after seven, and never of a record without dates', () => {
    const lists = [{ when: { kind: 'date' as const, date: '2026-01-05' } }];
    expect(breakSinceLatest(lists, '2026-02-28T10:00:00Z')).toBeNull();
    expect(breakSinceLatest(lists, '2026-03-02T10:00:00Z')).toBe(8);
    expect(breakSinceLatest([], '2026-03-02T10:00:00Z')).toBeNull();
  });
});
