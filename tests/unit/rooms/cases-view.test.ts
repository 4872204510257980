import { describe, expect, it } from 'vitest';
import { caseSummary } from '../../../src/lib/rooms/cases/case-summary';
import { casesView, filterFrom, type CasesFilter } from '../../../src/lib/rooms/cases/cases-view';
import { stepInitials } from '../../../src/lib/rooms/cases/step-initials';
import { aCase, aList, aRecord, casesInLists, smallProcedure } from '../../made-up/record';

const all: CasesFilter = { procedure: '', show: 'all', code: '', page: 1 };
const nothingHidden = new Set<string>();

describe('the record by list', () => {
  it('shows lists newest first, the cases of a list in their order', () => {
    const view = casesView(aRecord(casesInLists(6, 3)), nothingHidden, all);
    expect(view.groups.map(({ id }) => id)).toEqual(['list-2', 'list-1']);
    expect(view.groups[0]?.rows.map(({ code }) => code)).toEqual(['A4', 'A5', 'A6']);
  });

  it('says how many operated cases are not here', () => {
    const { cases } = casesInLists(3, 3);
    const view = casesView(aRecord({ cases, lists: [aList(1, { operated: 7 })] }), nothingHidden, all);
    expect(view.groups[0]?.said).toBe('3 here of 7 operated');
  });

  it('keeps a case of a list that came in later with its list', () => {
    const cases = [aCase(1, { listId: 'list-1' }), aCase(2, { listId: 'list-2' }), aCase(3, { listId: 'list-1' })];
    const view = casesView(aRecord({ cases, lists: [aList(1), aList(2)] }), nothingHidden, all);
    expect(view.groups.map(({ rows }) => rows.map(({ code }) => code))).toEqual([['A2'], ['A1', 'A3']]);
  });

  it('tells that events were never asked rather than none', () => {
    const cases = [aCase(1, { events: null }), aCase(2, { events: null })];
    const view = casesView(aRecord({ cases }), nothingHidden, all);
    expect([view.head, view.rest]).toEqual(['2 cases, lists not known.', 'Events were not answered in any of them.']);
    expect(view.groups[0]?.rows[0]?.events).toBe('Events not answered');
  });

  it('shows no drawing and no times of a case whose window runs', () => {
    const view = casesView(aRecord({ cases: [aCase(1)] }), new Set(['case-1']), all);
    expect(view.groups[0]?.rows[0]).toMatchObject({ summary: null, said: 'Times hidden' });
    expect(view.hidden).toBe(1);
  });

  it('filters by what is not answered, facts missing, left out, procedure and code', () => {
    const cases = [
      aCase(1, { events: null, facts: { nucleus: 'soft', still: true } }),
      aCase(2, { facts: { nucleus: 'soft' } }),
      aCase(3, {
        facts: { nucleus: 'soft', still: true },
        leftOut: { reason: 'timing-unreliable', timesSeen: true, at: '2026-01-01T00:00:00Z' },
      }),
    ];
    const codes = (over: Partial<CasesFilter>) =>
      casesView(aRecord({ cases }), nothingHidden, { ...all, ...over }).groups.flatMap(({ rows }) =>
        rows.map(({ code }) => code),
      );
    expect(codes({ show: 'not-answered' })).toEqual(['A1']);
    expect(codes({ show: 'facts-missing' })).toEqual(['A2']);
    expect(codes({ show: 'left-out' })).toEqual(['A3']);
    expect(codes({ code: 'a2' })).toEqual(['A2']);
    expect(codes({ procedure: 'other' })).toEqual([]);
  });

  it('pages whole lists and never loses a case on the way', () => {
    const record = aRecord(casesInLists(230, 7));
    const first = casesView(record, nothingHidden, all);
    const seen = Array.from({ length: first.pages }, (_, index) =>
      casesView(record, nothingHidden, { ...all, page: index + 1 }).groups.flatMap(({ rows }) =>
        rows.map(({ id }) => id),
      ),
    ).flat();
    expect(seen).toHaveLength(230);
    expect(new Set(seen).size).toBe(230);
    expect(first.groups.flatMap(({ rows }) => rows).length).toBeLessThan(50);
  });

  it('pages a long record without lists', () => {
    const cases = Array.from({ length: 600 }, (_, index) => aCase(index + 1));
    const view = casesView(aRecord({ cases }), nothingHidden, all);
    expect(view.pages).toBeGreaterThan(10);
    expect(view.groups[0]?.rows.at(-1)?.code).toBe('A600');
  });

  it('reads its filter from the address and falls back on nonsense', () => {
    expect(filterFrom(new URLSearchParams('show=rubbish&page=-2&code= x '))).toEqual({ ...all, code: 'x' });
  });
});

describe('the small drawing of a case', () => {
  it('gives every step its own letters', () => {
    const initials = Object.values(stepInitials(smallProcedure));
    expect(new Set(initials).size).toBe(smallProcedure.steps.length);
    expect(initials).toEqual(['S', 'Ca', 'Co', 'W']);
  });

  it('takes waiting and protected parts with a length alone out of their step, so that parts add up to the operation', () => {
    const one = aCase(1, {
      stretches: [
        { stepId: 'cortex', start: null, end: null, seconds: 60, kind: 'step', reason: null },
        { stepId: 'cortex', start: null, end: null, seconds: 20, kind: 'waiting', reason: 'lens-loading' },
      ],
    });
    expect(caseSummary(one, smallProcedure).parts.map(({ kind, seconds }) => [kind, seconds])).toEqual([
      ['step', 40],
      ['waiting', 20],
    ]);
  });

  it('follows the clock where it is known, so that going back is seen', () => {
    const at = (stepId: string, start: number) => ({
      stepId,
      start,
      end: start + 10,
      seconds: 10,
      kind: 'step' as const,
      reason: null,
    });
    const one = aCase(1, { stretches: [at('cortex', 20), at('side-port', 0), at('side-port', 40)] });
    expect(caseSummary(one, smallProcedure).label).toBe('In order: Side port, Cortex aspiration, Side port');
  });
});
