import { describe, expect, it } from 'vitest';
import { rehearsalAfterEvent, rehearsalOfTheMonth, type Rehearsal } from '../../../src/lib/rules';
import type { Event } from '../../../src/lib/model';
import { case_, length, listRecord } from '../../made-up/cases';

const rehearsal = (id: string, events: string[], procedures = ['made-up']): Rehearsal => ({
  id,
  title: id,
  procedures,
  events,
  first: [],
  actions: [],
  never: [],
  call: '',
  open: [],
  sources: [],
  reviewed: null,
  marked: {},
  body: '',
});
const all = [
  rehearsal('burn', ['wound-burn']),
  rehearsal('leak', ['wound-leak']),
  rehearsal('tunnel', ['x'], ['other']),
];
const NOW = '2026-06-30T10:00:00Z';

describe('rehearsalOfTheMonth', () => {
  const month = (said: Record<string, string>) => rehearsalOfTheMonth(all, 'made-up', said, NOW)?.id ?? null;

  it('takes one never said, in order of the library, then the one said longest ago', () => {
    expect(month({})).toBe('burn');
    expect(month({ burn: '2026-05-01T10:00:00Z' })).toBe('leak');
    expect(month({ burn: '2026-05-01T10:00:00Z', leak: '2026-04-01T10:00:00Z' })).toBe('leak');
  });

  it('offers none within the month, nor one of another procedure', () => {
    expect(month({ burn: '2026-06-10T10:00:00Z' })).toBeNull();
    expect(month({ burn: '2026-05-31T10:00:00Z', tunnel: NOW })).toBe('leak');
    expect(rehearsalOfTheMonth(all, 'none', {}, NOW)).toBeNull();
  });
});

describe('rehearsalAfterEvent', () => {
  const event = (kind: string): Event => ({
    kind,
    stepId: null,
    serious: false,
    nearMiss: false,
    noticed: 'during',
    reviewed: null,
  });
  const lists = [listRecord(1, { when: { kind: 'date', date: '2026-06-01' } })];
  const on = (kind: string, listId: string | null) => ({
    ...case_(7, [length('a', 60)], { events: [event(kind)] }),
    procedureId: 'made-up',
    listId,
  });
  const offered = (said: Record<string, string>, kind = 'wound-leak', listId: string | null = lists[0]?.id ?? null) =>
    rehearsalAfterEvent(all, [on(kind, listId)], lists, said)?.rehearsal.id ?? null;

  it('offers the one for the kind until it was said since the day of the list', () => {
    expect(offered({})).toBe('leak');
    expect(offered({ leak: '2026-05-01T10:00:00Z' })).toBe('leak');
    expect(offered({ leak: '2026-06-02T10:00:00Z' })).toBeNull();
    expect(offered({ burn: '2026-06-02T10:00:00Z' })).toBe('leak');
  });

  it('offers the second for a kind once the first was said, and none once both were', () => {
    const two = [...all, rehearsal('leak-again', ['wound-leak'])];
    const next = (said: Record<string, string>) =>
      rehearsalAfterEvent(two, [on('wound-leak', lists[0]?.id ?? null)], lists, said)?.rehearsal.id ?? null;
    expect(next({})).toBe('leak');
    expect(next({ leak: '2026-06-02T10:00:00Z' })).toBe('leak-again');
    expect(next({ leak: '2026-06-02T10:00:00Z', 'leak-again': '2026-06-03T10:00:00Z' })).toBeNull();
  });

  it('is content with ever said where the day is not known, and offers none for a kind without one', () => {
    expect(offered({ leak: '2026-05-01T10:00:00Z' }, 'wound-leak', null)).toBeNull();
    expect(offered({}, 'wrong-lens')).toBeNull();
  });
});
