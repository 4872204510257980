import { describe, expect, it } from 'vitest';
import { listFromFields, rowsFromForm } from '../../../src/lib/rooms/lists/list-form';
import { listView } from '../../../src/lib/rooms/lists/list-view';
import { codesFrom, newListFromForm } from '../../../src/lib/rooms/lists/new-list';
import type { Case } from '../../../src/lib/model';
import { aCase, aList, aRecord, smallProcedure } from '../../made-up/record';
import { aTear } from '../../made-up/plain';

const NOW = '2026-05-02T09:00:00.000Z';
const asFields = (fields: Record<string, string | string[]>) =>
  Object.fromEntries(Object.entries(fields).map(([name, value]) => [name, Array.isArray(value) ? value : [value]]));
/** A case made for its list: nothing said yet. */
const fresh = (n: number): Case => aCase(n, { listId: 'list-1', events: null, stretches: [] });
const rows = (fields: Record<string, string | string[]>, cases: Case[], seen = false) =>
  rowsFromForm(
    asFields(fields),
    cases,
    () => smallProcedure,
    () => seen,
    NOW,
  );

describe('facts by list', () => {
  it('takes a row of one key a field', () => {
    const { changed, errors } = rows(
      {
        'case-1.version': '1',
        'case-1.fact-nucleus': 'hard',
        'case-1.fact-still': 'yes',
        'case-1.fact-more': '0',
        'case-1.hands': 'mine',
        'case-1.events': 'none',
      },
      [fresh(1)],
    );
    expect(errors).toEqual([]);
    expect(changed[0]?.case).toMatchObject({
      facts: { nucleus: 'hard', still: true, 'floppy-iris': false, toric: false },
      hands: { whole: 'mine', steps: {} },
      events: [],
    });
  });

  it('leaves a row nobody touched as it is, without asking anything of it', () => {
    expect(rows({ 'case-1.version': '1', 'case-1.hands': '', 'case-1.events': '' }, [fresh(1)])).toEqual({
      changed: [],
      errors: [],
    });
  });

  it('must be told hands and event once anything of the row is entered', () => {
    const { changed, errors } = rows({ 'case-1.version': '1', 'case-1.fact-nucleus': 'soft' }, [fresh(1)]);
    expect(changed).toEqual([]);
    expect(errors.map(({ field }) => field)).toEqual(['case-1.hands', 'case-1.events']);
    expect(errors[0]?.message).toMatch(/^A1\. Hands/);
  });

  it('does not ask again whose hands of a case that came with its times', () => {
    const timed = aCase(1, { listId: 'list-1', events: null });
    const view = listView(aList(1), aRecord({ cases: [timed], lists: [aList(1)] }), new Set(), '2026-11-25');
    expect(view.tables[0]?.rows[0]?.hands.answer).toBe('mine');
    expect(view.tables[0]?.rows[0]?.events).toBe('');
  });

  it('asks about the date where a list with times lies ahead of today', () => {
    const list = { ...aList(1), when: { kind: 'date' as const, date: '2026-12-01' } };
    const said = (today: string, over: Partial<Case> = {}) =>
      listView(list, aRecord({ cases: [aCase(1, { listId: 'list-1', ...over })], lists: [list] }), new Set(), today)
        .said;
    expect(said('2026-11-25')).toContain('check the date, or the clock');
    expect(said('2026-12-01')).not.toContain('check the date');
    // Where the sun rises earlier it is tomorrow already.
    expect(said('2026-11-30')).not.toContain('check the date');
    // Its eyes may well be entered the evening before.
    expect(said('2026-11-25', { stretches: [] })).not.toContain('check the date');
  });

  it('never turns an event written down into none', () => {
    const event = aTear(null, { noticed: 'later' });
    const { errors } = rows({ 'case-1.version': '1', 'case-1.hands': 'mine', 'case-1.events': 'none' }, [
      aCase(1, { events: [event] }),
    ]);
    expect(errors[0]?.message).toContain('page of the case');
  });

  it('keeps facts from files that no row asks for', () => {
    const one = aCase(1, { facts: { 'axial-length': 23.4 } });
    const { changed } = rows(
      { 'case-1.version': '1', 'case-1.fact-nucleus': 'soft', 'case-1.hands': 'mine', 'case-1.events': 'none' },
      [one],
    );
    expect(changed[0]?.case.facts).toEqual({ 'axial-length': 23.4, nucleus: 'soft' });
  });

  it('stores "as usual" as such, beside the values', () => {
    const { changed } = rows(
      {
        'case-1.version': '1',
        'case-1.fact-nucleus': 'soft',
        'case-1.fact-as-usual': 'yes',
        'case-1.hands': 'mine',
        'case-1.events': 'none',
      },
      [fresh(1)],
    );
    expect(changed[0]?.case.facts).toEqual({ nucleus: 'soft', 'as-usual': true });
  });

  it('marks facts entered after the times were seen', () => {
    const { changed } = rows(
      { 'case-1.version': '1', 'case-1.fact-nucleus': 'soft', 'case-1.hands': 'mine', 'case-1.events': 'none' },
      [aCase(1)],
      true,
    );
    expect(changed[0]?.case.factChanges).toHaveLength(1);
  });

  it('leaves a case kept as it is alone', () => {
    const kept = aCase(1, { keptAsItIs: { since: NOW, why: 'inquiry' } });
    expect(rows({ 'case-1.version': '1', 'case-1.fact-nucleus': 'soft' }, [kept]).changed).toEqual([]);
  });

  it('goes by the version the form was made from', () => {
    const { changed } = rows(
      { 'case-1.version': '1', 'case-1.fact-nucleus': 'soft', 'case-1.hands': 'mine', 'case-1.events': 'none' },
      [aCase(1, { version: 4 })],
    );
    expect(changed[0]?.case.version).toBe(1);
  });

  it('offers "as usual" only once there is a usual', () => {
    const with_ = (count: number) => {
      const cases = Array.from({ length: count }, (_, index) =>
        aCase(index + 1, { listId: 'list-1', facts: { nucleus: index === 0 ? 'hard' : 'soft' } }),
      );
      return listView(aList(1), aRecord({ cases, lists: [aList(1)] }), new Set(), '2026-11-25').tables[0]?.usual
        .nucleus;
    };
    expect([with_(4), with_(5)]).toEqual(['', 'soft']);
  });
});

describe('what is asked once a list', () => {
  const list = (fields: Record<string, string>, cases = 4) =>
    listFromFields(asFields(fields), aList(1), cases, smallProcedure);

  it('stores the answers; empty is not said', () => {
    const { list: stored, errors } = list({ when: '2026-03', operated: '7', teaching: 'no', nextDayKnown: '5' });
    expect(errors).toEqual([]);
    expect(stored).toMatchObject({
      when: { kind: 'month', month: '2026-03' },
      operated: 7,
      teaching: false,
      eventsAnsweredForAll: null,
      anaesthesia: null,
      nextDayKnown: 5,
    });
  });

  it('refuses fewer operations than cases, and a next-day course of more than were operated', () => {
    expect(list({ operated: '3' }).errors[0]?.message).toContain('4 cases of this list are here');
    expect(list({ operated: '7', nextDayKnown: '8' }).errors[0]?.message).toContain('8 of 7');
  });

  it('adds an event of an operation that was not timed', () => {
    const { list: stored, errors } = list({ kind: 'tear', weight: 'serious', noticed: 'during' });
    expect(errors).toEqual([]);
    expect(stored.untimedEvents).toHaveLength(1);
  });
});

describe('a list entered from its sheet', () => {
  it('counts codes up from the first', () => {
    expect(codesFrom('F098', 4)).toEqual(['F098', 'F099', 'F100', 'F101']);
    expect(codesFrom('L', 2)).toEqual(['L1', 'L2']);
    expect(codesFrom('7-003x', 2)).toEqual(['7-003x', '7-004x']);
  });

  it('refuses codes that are taken, and more rows than a sheet has', () => {
    const { form, errors } = newListFromForm(
      asFields({ when: '', count: '41', first: 'A1', procedure: 'small' }),
      new Set(['A1']),
      ['small'],
    );
    expect(form).toBeNull();
    expect(errors.map(({ field }) => field)).toEqual(['count', 'first']);
  });
});
