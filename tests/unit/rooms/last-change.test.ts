import { describe, expect, it } from 'vitest';
import { withTimes } from '../../../src/lib/rooms/cases/case-change';
import { undoOf, type LastChange } from '../../../src/lib/rooms/cases/last-change';
import type { Case } from '../../../src/lib/model';
import { aCase, aGoal, aRecord, casesInLists } from '../../made-up/record';

const NOW = '2026-11-25T08:00:00.000Z';
const never = () => false;
const change = (one: Case, over: Partial<Case>, what = 'Facts changed'): Case => ({
  ...one,
  ...over,
  version: one.version + 1,
  history: [...one.history, { at: NOW, what }],
});
const lastOf = (...before: Case[]): LastChange => ({
  cases: before.map((one) => ({ version: one.version + 1, before: one })),
});
const stretch = (seconds: number) =>
  ({ stepId: 'cortex', start: null, end: null, seconds, kind: 'step', reason: null }) as const;
const offered = (undo: ReturnType<typeof undoOf>) => {
  if (undo?.kind !== 'offered') throw new Error(undo?.kind ?? 'nothing');
  return undo;
};

describe('undoing the change made last', () => {
  const before = aCase(1, { facts: { nucleus: 'soft' } });
  const after = change(before, { facts: { nucleus: 'hard' } }, 'Nucleus: soft → hard');

  it('brings back what stood there, as a change of its own', () => {
    const undo = offered(undoOf(lastOf(before), aRecord({ cases: [after] }), never, NOW));
    expect(undo).toMatchObject({ cases: 1, what: 'Nucleus: soft → hard' });
    expect(undo.back[0]).toMatchObject({
      case: { facts: { nucleus: 'soft' }, version: after.version },
      what: 'Undone: Nucleus: soft → hard',
    });
  });

  it('marks a fact that goes back after its times were seen, and keeps the mark of the change', () => {
    const mark = { factId: 'nucleus', before: 'soft', after: 'hard', at: NOW };
    const marked = { ...after, factChanges: [mark] };
    const undo = offered(undoOf(lastOf(before), aRecord({ cases: [marked] }), () => true, NOW));
    expect(undo.back[0]?.case.factChanges).toEqual([mark, { ...mark, before: 'hard', after: 'soft' }]);
    const unseen = offered(undoOf(lastOf(before), aRecord({ cases: [after] }), never, NOW));
    expect(unseen.back[0]?.case.factChanges).toEqual([]);
  });

  it('is not offered once the case was changed again, erased, or one of several was', () => {
    const again = change(after, {}, 'Hands changed');
    expect(undoOf(lastOf(before), aRecord({ cases: [again] }), never, NOW)).toBeNull();
    expect(undoOf(lastOf(before), aRecord({ cases: [] }), never, NOW)).toBeNull();
    expect(undoOf(lastOf(before, aCase(2)), aRecord({ cases: [after, aCase(2)] }), never, NOW)).toBeNull();
    expect(undoOf(null, aRecord({ cases: [after] }), never, NOW)).toBeNull();
  });

  it('marks no confirming "as usual", which says nothing of the eye', () => {
    const usual = change(before, { facts: { ...before.facts, 'as-usual': true } }, 'Facts confirmed as usual');
    const undo = offered(undoOf(lastOf(before), aRecord({ cases: [usual] }), () => true, NOW));
    expect(undo.back[0]).toMatchObject({ case: { factChanges: [] }, what: 'Undone: Facts confirmed as usual' });
  });

  it('says in the history that it came after the times were seen, where the change itself had not', () => {
    const undo = offered(undoOf(lastOf(before), aRecord({ cases: [after] }), () => true, NOW));
    expect(undo.back[0]?.what).toBe('Undone: Nucleus: soft → hard (after its times were seen)');
  });

  it('keeps what no line of history has yet: the times that go, the review that goes', () => {
    const timed = withTimes(before, [stretch(41)])!;
    const changed = change(before, timed.case, timed.what);
    const undo = offered(undoOf(lastOf(before), aRecord({ cases: [changed] }), () => true, NOW));
    const all = 'side-port 30, capsulorhexis 30, cortex 30, wound-check 30';
    const line = `Undone: Times changed (taken back: times, in seconds: cortex 41)`;
    expect(undo.back[0]?.what).toBe(line);
    // Forth again, the line does not grow.
    const undone = change(changed, { stretches: before.stretches }, line);
    const again = offered(undoOf(lastOf(changed), aRecord({ cases: [undone] }), () => true, NOW));
    expect(again.back[0]?.what).toBe(`Done again: Times changed (taken back: times, in seconds: ${all})`);

    const event = { kind: 'tear', stepId: 'cortex', serious: true, nearMiss: false, noticed: 'during' } as const;
    const waiting = aCase(1, { events: [{ ...event, reviewed: null }] });
    const review = { at: NOW, text: 'Lower the flow (with a colleague) first.' };
    const reviewed = change(waiting, { events: [{ ...event, reviewed: review }] }, 'The event was reviewed in writing');
    expect(offered(undoOf(lastOf(waiting), aRecord({ cases: [reviewed] }), never, NOW)).back[0]).toMatchObject({
      case: { events: [{ reviewed: null }] },
      what: `Undone: The event was reviewed in writing (taken back: the review "${review.text}")`,
    });
  });

  it('is refused for times that are hidden, as changing them is', () => {
    const changed = change(before, { stretches: [stretch(41)] }, 'Times changed');
    const undo = undoOf(lastOf(before), aRecord({ cases: [changed] }), never, NOW);
    expect(undo).toMatchObject({ kind: 'refused', because: expect.stringContaining('hidden') as unknown });
    // Times typed into a case that had none are hidden from then on, and no less.
    const empty = aCase(1, { stretches: [] });
    const typed = change(empty, { stretches: [stretch(41)] }, 'Times changed');
    expect(undoOf(lastOf(empty), aRecord({ cases: [typed] }), never, NOW)).toMatchObject({ kind: 'refused' });
  });

  it('leaves a case out again as one whose times were seen: while it was left out they stood open', () => {
    const left = aCase(1, {
      leftOut: { reason: 'timing-unreliable', timesSeen: false, at: '2026-11-01T08:00:00.000Z' },
    });
    const counted = change(left, { leftOut: null }, 'Counted again');
    const undo = offered(undoOf(lastOf(left), aRecord({ cases: [counted] }), never, NOW));
    expect(undo.back[0]?.case.leftOut).toEqual({ reason: 'timing-unreliable', timesSeen: true, at: NOW });
    // Nothing was there to be seen in a case without times.
    const bare = { ...left, stretches: [] };
    const noTimes = offered(undoOf(lastOf(bare), aRecord({ cases: [{ ...counted, stretches: [] }] }), never, NOW));
    expect(noTimes.back[0]?.case.leftOut?.timesSeen).toBe(false);
  });

  it('is refused while the case is kept as it is', () => {
    const kept = { ...after, keptAsItIs: { since: NOW, why: 'claim' } };
    expect(undoOf(lastOf(before), aRecord({ cases: [kept] }), never, NOW)).toMatchObject({ kind: 'refused' });
  });

  it('leaves no case out again that may no longer be left out', () => {
    const { cases, lists } = casesInLists(60, 5);
    const left = { ...cases[45]!, leftOut: { reason: 'timing-unreliable', timesSeen: true, at: NOW } as const };
    const counted = change(left, { leftOut: null }, 'Counts again');
    const record = aRecord({
      cases: cases.map((one) => (one.id === left.id ? counted : one)),
      lists,
      goals: [aGoal(40)],
    });
    // The window is full with this case in it.
    expect(undoOf(lastOf(left), record, never, NOW)).toMatchObject({ kind: 'refused' });
  });
});
