import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DAYS, keptOf, LATEST, wholeMoments } from '../../../src/lib/server/storage/disk/backup-times';

const at = (iso: string) => Date.parse(iso);
const minutes = (from: string, count: number) => Array.from({ length: count }, (_, one) => at(from) + one * 60_000);
const said = (kept: Iterable<number>) => [...kept].sort((a, b) => a - b).map((each) => new Date(each).toISOString());

describe('backups that stay', () => {
  const now = at('2026-11-29T12:00:00Z');

  it('are the newest twenty, and the first of the day', () => {
    const today = minutes('2026-11-29T08:00:00Z', 30);
    expect([...keptOf(today, now, 12)].sort()).toEqual([today[0], ...today.slice(10)]);
  });

  it('are the first of each day for thirty days, and of each month for the months set', () => {
    const times = ['2025-12-03', '2025-12-04', '2026-10-01', '2026-10-20', '2026-10-31', '2026-11-01', '2026-11-02'];
    const twice = times.flatMap((day) => [at(`${day}T08:00:00Z`), at(`${day}T09:00:00Z`)]);
    const since = minutes('2026-11-28T08:00:00Z', LATEST);
    expect(said(keptOf([...twice, ...since], now, 12)).slice(0, -LATEST)).toEqual([
      '2025-12-03T08:00:00.000Z',
      '2026-10-01T08:00:00.000Z',
      '2026-10-31T08:00:00.000Z',
      '2026-11-01T08:00:00.000Z',
      '2026-11-02T08:00:00.000Z',
    ]);
    expect(said(keptOf([...twice, ...since], now, 1)).slice(0, 2)).toEqual([
      '2026-10-31T08:00:00.000Z',
      '2026-11-01T08:00:00.000Z',
    ]);
  });

  it('are none of a file that has not changed for longer than that', () => {
    expect(said(keptOf([at('2025-11-30T08:00:00Z')], now, 12))).toEqual([]);
    expect(said(keptOf([at('2026-09-05T08:00:00Z'), at('2026-09-06T08:00:00Z')], now, 12))).toEqual([
      '2026-09-05T08:00:00.000Z',
    ]);
  });
});

/**
 * Files that change at any moments and are thinned out each by itself, now and then. Told from the backups that are left,
 * every file must be what it was, at each of the moments that are offered: the history kept beside is the judge.
 */
it('put together a whole record as it stood, at every moment that is offered', () => {
  const hour = 3_600_000;
  const change = fc.record({
    hours: fc.oneof(fc.nat({ max: 3 }), fc.nat({ max: 60 }), fc.nat({ max: 900 })),
    files: fc.uniqueArray(fc.nat({ max: 3 }), { minLength: 1 }),
    times: fc.integer({ min: 1, max: 30 }),
    thins: fc.boolean(),
  });
  let offered = 0;
  fc.assert(
    fc.property(
      fc.array(change, { minLength: 1, maxLength: 40 }),
      fc.integer({ min: 1, max: 14 }),
      (changes, months) => {
        const ever: number[][] = [[], [], [], []];
        const left: number[][] = [[], [], [], []];
        let clock = at('2025-01-01T00:00:00Z');
        const thin = () => {
          for (const [file, times] of left.entries()) {
            const kept = keptOf(times, clock, months);
            left[file] = times.filter((each) => kept.has(each));
          }
        };
        for (const { hours, files, times, thins } of changes) {
          clock += hours * hour;
          for (let one = 0; one < times; one += 1) {
            clock += 60_000;
            for (const file of files) for (const row of [ever[file], left[file]]) row?.push(clock);
          }
          if (thins) thin();
        }
        for (const moment of wholeMoments(left, clock, months)) {
          offered += 1;
          for (const file of ever.keys())
            expect(left[file]?.find((each) => each >= moment)).toBe(ever[file]?.find((each) => each >= moment));
        }
        thin();
        const oldest = Math.min(...left.flat());
        expect(clock - oldest).toBeLessThanOrEqual(Math.max(DAYS, months * 31) * 24 * hour);
      },
    ),
    { seed: 20, numRuns: 300 },
  );
  expect(offered).toBeGreaterThan(1000);
});
