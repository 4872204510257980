import { describe, expect, it } from 'vitest';
import { weeksBeforeLatest } from '../../../src/lib/rules/weeks-before-latest';
import { listRecord } from '../../bench/made-up';

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
