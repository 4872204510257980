import { describe, expect, it } from 'vitest';
import { undoOf, type LastChange } from '../../../src/lib/assessment/last-change';
import { changeCases, lastUndo } from '../../../src/lib/server/last-change';
import { readRecord } from '../../../src/lib/server/record';
import { openMemoryStore } from '../../../src/lib/server/storage/memory';
import type { Case } from '../../../src/lib/model';
import { aCase, aGoal, aRecord, casesInLists } from './made-up';

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

describe('a store in which cases are changed', () => {
  const open = async () => {
    const store = await openMemoryStore();
    const { id: _id, version: _version, history: _history, ...fresh } = aCase(1, { facts: {} });
    const first = await store.recordCase(fresh);
    const second = await store.recordCase({ ...fresh, code: 'A2', sequence: 2 });
    return { store, first, second };
  };
  const undo = async (store: Awaited<ReturnType<typeof open>>['store'], id: string) => {
    const found = offered(await lastUndo(store, await readRecord(store), [id], NOW));
    await changeCases(store, found.back, NOW);
  };

  it('goes back and forth, a line of history each time', async () => {
    const { store, first } = await open();
    await changeCases(store, [{ case: { ...first, position: 7 }, what: 'Place: none → 7' }], NOW);
    await undo(store, first.id);
    expect(await store.caseById(first.id)).toMatchObject({ position: first.position, version: 3 });
    await undo(store, first.id);
    expect(await store.caseById(first.id)).toMatchObject({ position: 7, version: 4 });
    const lines = (await store.caseById(first.id))?.history.map(({ what }) => what);
    expect(lines).toEqual(['Place: none → 7', 'Undone: Place: none → 7', 'Undone: Place: none → 7']);
  });

  it('undoes the rows of a list together, or none of them', async () => {
    const { store, first, second } = await open();
    const both = [first, second].map((one) => ({ case: { ...one, position: 3 }, what: 'Place' }));
    await changeCases(store, both, NOW);
    expect(offered(await lastUndo(store, await readRecord(store), [second.id], NOW)).cases).toBe(2);
    const now = (await store.caseById(second.id))!;
    await store.updateCase({ ...now, position: 4 }, 'Place', NOW);
    expect(await lastUndo(store, await readRecord(store), [first.id], NOW)).toBeNull();
  });

  it('offers nothing for a change that was refused', async () => {
    const { store, first, second } = await open();
    const taken = changeCases(store, [{ case: { ...first, code: second.code }, what: 'Code' }], NOW);
    await expect(taken).rejects.toMatchObject({ code: 'duplicate-code' });
    expect(await lastUndo(store, await readRecord(store), [first.id], NOW)).toBeNull();
  });

  it('forgets how an erased case stood', async () => {
    const { store, first } = await open();
    await changeCases(store, [{ case: { ...first, position: 7 }, what: 'Place' }], NOW);
    await store.eraseCase(first.id, NOW);
    expect(await store.draft('undo-last-change')).toBeNull();
  });
});
