import { describe, expect, it } from 'vitest';
import { reportOf } from '../../../src/lib/server/report';
import { openMemoryStore } from '../../../src/lib/server/storage';
import { aGoal } from '../../made-up/stored';

describe('the report that is asked for', () => {
  it('has goals in the order in which they came into the record, whatever the clock said', async () => {
    const store = await openMemoryStore();
    const set = ['2026-03-01T10:00:00.000Z', '2026-05-01T10:00:00.000Z', '2019-01-01T10:00:00.000Z'];
    for (const setAt of set) await store.startGoal(aGoal([], { setAt }));
    const { asked, choices, report } = await reportOf(store, new URLSearchParams());
    expect(choices.of[0]?.options.map(({ id }) => id)).toEqual(['goal-3', 'goal-2', 'goal-1']);
    expect(asked).toBe('goal-3');
    expect(report?.period).toContain('January 2019');
    expect(choices.of.find(({ label }) => label === 'A year')?.options.map(({ id }) => id)).toEqual(['2026', '2019']);
    const year = await reportOf(store, new URLSearchParams('of=2026'));
    expect(year.report?.sections[0]?.lines.map((line) => line.split(':')[0])).toEqual(['May 2026', 'March 2026']);
  });
});
