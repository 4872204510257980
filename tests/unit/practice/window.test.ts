import { describe, expect, it } from 'vitest';
import { windowOf } from '../../../src/lib/practice';
import { goalAfter, listsFor, month, operation } from '../../made-up/month';

const ids = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, at) => `case-${from + at}`);
const at = (cases: ReturnType<typeof month>, goal = goalAfter(40)) => windowOf(goal, cases, listsFor(cases), operation);

describe('the window', () => {
  it('is full with twenty counted cases over four lists, and the next twenty follows it', () => {
    const window = at(month(85));
    expect(window).toMatchObject({ full: true, lists: 4, need: { cases: 20, lists: 4 }, listsKnown: true });
    expect(window.windows).toEqual([ids(41, 60), ids(61, 80)]);
    expect(window.running).toEqual(ids(81, 85));
    expect(window.baselineIds).toEqual(ids(1, 40));
  });

  it('counts no list known to have been operated before the day the goal was set, and says how many cases that is', () => {
    const cases = month(85);
    const goal = goalAfter(40);
    const early = cases[41]?.listId;
    const dated = listsFor(cases).map((list) => ({
      ...list,
      when: { kind: 'date' as const, date: list.id === early ? '2026-05-31' : '2026-06-01' },
    }));
    const window = windowOf({ ...goal, setAt: '2026-06-01T10:00:00Z' }, cases, dated, operation);
    const left = cases.filter((one) => one.listId === early && one.sequence > 40).length;
    expect(window.operatedBefore).toBe(left);
    expect(window.counted).toHaveLength(45 - left);
    expect(windowOf({ ...goal, setAt: undefined }, cases, dated, operation).operatedBefore).toBe(0);
  });

  it('of a draft begins with the day it was agreed: lists operated while it waited count for neither period', () => {
    const cases = month(85);
    const waited = cases[41]?.listId;
    const dated = listsFor(cases).map((list) => ({
      ...list,
      when: { kind: 'date' as const, date: list.id === waited ? '2026-06-08' : '2026-06-15' },
    }));
    const set = { ...goalAfter(40), setAt: '2026-06-01T10:00:00Z' };
    const left = cases.filter((one) => one.listId === waited && one.sequence > 40).length;
    expect(left).toBeGreaterThan(0);
    expect(windowOf(set, cases, dated, operation).operatedBefore).toBe(0);
    const agreed = windowOf({ ...set, agreedAt: '2026-06-15T10:00:00Z' }, cases, dated, operation);
    expect(agreed.operatedBefore).toBe(left);
    expect(agreed.counted).toHaveLength(45 - left);
  });

  it('is not full at thirteen of twenty', () => {
    expect(at(month(53))).toMatchObject({
      full: false,
      lists: 3,
      windows: [],
      running: ids(41, 53),
      counted: ids(41, 53),
    });
  });

  it('goes on past twenty until there are four lists', () => {
    expect(at(month(79, { listSize: 10 })).windows).toEqual([ids(41, 71)]);
    expect(at(month(70, { listSize: 10 }))).toMatchObject({ full: false, lists: 3 });
  });

  it('needs three lists where lists are longer than twenty', () => {
    const cases = month(130, { listSize: 25, from: 50 });
    const window = at(cases, goalAfter(50));
    expect(window.need).toEqual({ cases: 20, lists: 3 });
    expect(window.windows).toEqual([ids(51, 101)]);
  });

  it('knows a long list by how many were operated, not by how many were timed', () => {
    const cases = month(85);
    const lists = listsFor(cases).map((list) => ({ ...list, operated: 40 }));
    expect(windowOf(goalAfter(40), cases, lists, operation).need.lists).toBe(3);
  });

  it('begins with a new list', () => {
    const cases = month(85);
    expect(at(cases, goalAfter(42)).counted[0]).toBe('case-46');
    const list = cases[42]!.listId;
    expect(at(cases, { ...goalAfter(40), listAtStart: list }).counted[0]).toBe('case-46');
  });

  it('is counted by cases alone where lists are not known', () => {
    const window = at(month(61, { lists: false }));
    expect(window).toMatchObject({ full: true, listsKnown: false, need: { cases: 20, lists: 0 }, lists: 0 });
    expect(window.windows).toEqual([ids(41, 60)]);
  });

  it('counts only cases with the step by own hands, three other own steps, in a known order, not left out', () => {
    const cases = month(80);
    const at41 = (over: Partial<(typeof cases)[number]>) =>
      cases.map((one, at) => (at === 40 ? { ...one, ...over } : one));
    const first = (list: typeof cases) => at(list).counted[0];
    expect(first(cases)).toBe('case-41');
    expect(first(at41({ hands: { whole: 'mine', steps: { practised: 'taken-over' } } }))).toBe('case-42');
    expect(
      first(at41({ hands: { whole: 'someone-else', steps: { practised: 'mine', first: 'mine', fifth: 'mine' } } })),
    ).toBe('case-42');
    expect(
      first(
        at41({
          hands: { whole: 'someone-else', steps: { practised: 'mine', first: 'mine', fifth: 'mine', sixth: 'mine' } },
        }),
      ),
    ).toBe('case-41');
    expect(first(at41({ orderKnown: false }))).toBe('case-42');
    expect(first(at41({ procedureId: 'other' }))).toBe('case-42');
  });

  it('counts what was left out, before and after the times were seen', () => {
    const left = (timesSeen: boolean) => ({
      reason: 'timing-unreliable' as const,
      timesSeen,
      at: '2026-06-02T10:00:00Z',
    });
    const cases = month(90).map((one, at) => ({
      ...one,
      leftOut: at === 44 ? left(true) : at === 45 || at === 88 ? left(false) : null,
    }));
    const window = at(cases);
    expect(window.leftOut).toEqual({
      before: 1,
      after: 1,
      ids: ['case-45', 'case-46'],
      reasons: { 'timing-unreliable': 2 },
    });
    expect(window.windows[0]).toEqual([...ids(41, 44), ...ids(47, 62)]);
  });

  it('is extended to forty by a second look, and windows follow', () => {
    const goal = goalAfter(40, { decisions: [{ at: '2026-07-01T10:00:00Z', kind: 'second-look', reason: '' }] });
    expect(at(month(105), goal).windows).toEqual([ids(41, 80), ids(81, 100)]);
    expect(windowOf(goal, month(105), [], operation, 'first').windows[0]).toEqual(ids(41, 60));
    expect(at(month(105), goalAfter(40, { windowLength: 40 })).windows).toEqual([ids(41, 80), ids(81, 100)]);
  });

  it('follows for six twenties and no further', () => {
    const window = at(month(220));
    expect(window.windows).toHaveLength(7);
    expect(window.running).toEqual([]);
    expect(window.counted.at(-1)).toBe('case-180');
  });

  it('does not move when more cases come, whatever they are like', () => {
    const cases = month(85);
    const later = month(130)
      .slice(85)
      .map((one) => ({ ...one, stretches: one.stretches.slice(0, 3), listId: null }));
    expect(at([...cases, ...later]).windows.slice(0, 2)).toEqual(at(cases).windows);
  });

  it('is empty, not broken, without cases', () => {
    expect(at([], goalAfter(0))).toMatchObject({ full: false, counted: [], running: [], windows: [], lists: 0 });
  });

  it('a record with fewer than three other steps fills its window too: the step alone can be shown', () => {
    const two = month(60).map((one) => ({
      ...one,
      stretches: one.stretches.filter(({ stepId }) => ['first', 'practised', 'fifth'].includes(stepId!)),
    }));
    expect(at(two).full).toBe(true);
  });
});
