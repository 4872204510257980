import { describe, expect, it } from 'vitest';
import type { ImportBatch, Store } from '../../../src/lib/server/storage';
import {
  aBatch,
  aCase,
  aGoal,
  aList,
  aNewCase,
  aNewList,
  aReference,
  aReflection,
  later,
  now,
} from '../../made-up/stored';

const hold = (store: Store, text = 'case_id,capsulorhexis\nA,83\n') =>
  store.holdImport({ heldAt: now, fileName: 'times.csv', text, choices: {} });

const bring = async (store: Store, batch: ImportBatch) => store.recordImport(await hold(store), batch, 'hash', later);

const twoCases = aBatch({
  lists: [aNewList('monday', '2026-03-02')],
  cases: [aNewCase('A', 2, { list: 'monday' }), aNewCase('B', 3)],
  references: [aReference],
});

export const importsContract = (open: () => Promise<Store>) => {
  describe('an import between preview and confirm', () => {
    it('waits with its choices', async () => {
      const store = await open();
      const held = await hold(store);
      await store.updateHeldImport({ ...held, choices: { order: 'newest-first' } });
      expect(await store.heldImport(held.id)).toEqual({ ...held, choices: { order: 'newest-first' } });
      expect(await store.imports()).toEqual([]);
    });

    it('can be dropped, and its id is not given to another', async () => {
      const store = await open();
      const held = await hold(store);
      await store.dropHeldImport(held.id);
      expect(await store.heldImport(held.id)).toBeNull();
      expect((await hold(store)).id).not.toBe(held.id);
      await expect(store.recordImport(held, twoCases, 'hash', now)).rejects.toMatchObject({ code: 'not-found' });
    });

    it('is gone after an hour, for whoever asks with the moment, and from the record when it is told', async () => {
      const store = await open();
      const old = await store.holdImport({
        heldAt: '2026-11-24T09:00:00.000Z',
        fileName: 'a.csv',
        text: '',
        choices: {},
      });
      const recent = await store.holdImport({
        heldAt: '2026-11-24T09:30:00.000Z',
        fileName: 'b.csv',
        text: '',
        choices: {},
      });
      const [minute59, minute61] = ['2026-11-24T09:59:00.000Z', '2026-11-24T10:01:00.000Z'];
      expect((await store.heldImports(minute59)).map(({ id }) => id)).toEqual([old.id, recent.id]);
      expect((await store.heldImports(minute61)).map(({ id }) => id)).toEqual([recent.id]);
      expect(await store.heldImport(old.id, minute61)).toBeNull();
      await store.dropForgottenImports(minute59);
      expect(await store.heldImport(old.id)).not.toBeNull();
      await store.dropForgottenImports(minute61);
      expect([await store.heldImport(old.id), await store.heldImport(recent.id)]).toMatchObject([null, recent]);
      // Looked at again it stays; another file that is held takes with it what is over.
      await store.updateHeldImport({ ...recent, heldAt: '2026-11-24T10:20:00.000Z' });
      await store.dropForgottenImports('2026-11-24T11:10:00.000Z');
      expect(await store.heldImport(recent.id)).not.toBeNull();
      await hold(store);
      expect(await store.heldImport(recent.id)).toBeNull();
    });
  });

  describe('an import', () => {
    it('brings lists, cases and reference sets in one change, and lets the text go', async () => {
      const store = await open();
      const record = await bring(store, twoCases);
      expect(record).toMatchObject({
        added: ['case-1', 'case-2'],
        listsAdded: ['list-1'],
        referencesAdded: ['reference-1'],
      });
      expect(await store.cases()).toMatchObject([
        { code: 'A', listId: 'list-1', source: { kind: 'file', importId: record.id, row: 2 }, invented: false },
        { code: 'B', listId: null, version: 1, leftOut: null },
      ]);
      expect(await store.imports()).toEqual([record]);
      expect(await store.heldImport(record.id)).toBeNull();
    });

    it('counts once when confirmed twice', async () => {
      const store = await open();
      const held = await hold(store);
      const [first, second] = await Promise.all([
        store.recordImport(held, twoCases, 'hash', later),
        store.recordImport(held, twoCases, 'hash', later),
      ]);
      expect(second).toEqual(first);
      expect(await store.cases()).toHaveLength(2);
    });

    it('is taken whole or not at all', async () => {
      const store = await open();
      await store.recordCase(aCase('B'));
      await expect(bring(store, twoCases)).rejects.toMatchObject({ code: 'duplicate-code' });
      const twice = aBatch({ cases: [aNewCase('C', 2), aNewCase('C', 3)] });
      await expect(bring(store, twice)).rejects.toMatchObject({ code: 'duplicate-code' });
      const noList = aBatch({ cases: [aNewCase('D', 2, { list: 'nowhere' })] });
      await expect(bring(store, noList)).rejects.toMatchObject({ code: 'invalid' });
      expect([await store.cases(), await store.lists(), await store.references()].map((all) => all.length)).toEqual([
        1, 0, 0,
      ]);
    });

    it('puts later files after earlier ones, and older dated lists before newer', async () => {
      const store = await open();
      const dated = (key: string, date: string, codes: string[]) =>
        aBatch({
          lists: [aNewList(key, date)],
          cases: codes.map((code, index) => aNewCase(code, index + 2, { list: key })),
        });
      await bring(store, dated('a', '2026-03-02', ['A1', 'A2']));
      await bring(store, dated('c', '2026-03-16', ['C1']));
      await bring(store, dated('b', '2026-03-09', ['B1', 'B2']));
      await bring(store, aBatch({ cases: [aNewCase('undated', 2)] }));
      expect((await store.cases()).map(({ code }) => code)).toEqual(['A1', 'A2', 'B1', 'B2', 'C1', 'undated']);
    });

    it('adds to a list already there when day and name are the same', async () => {
      const store = await open();
      const list = await store.recordList(aList('2026-03-02'));
      const record = await bring(store, twoCases);
      expect(record.listsAdded).toEqual([]);
      expect((await store.cases())[0]?.listId).toBe(list.id);
    });

    it('adds to the list of the record that the batch names, whatever day, name or case it has', async () => {
      const store = await open();
      const undated = { ...aList('2026-03-02'), when: { kind: 'unknown' as const } };
      const [list, other] = [await store.recordList(undated), await store.recordList(undated)];
      const stored = await store.recordCase(aCase('B', { listId: other.id }));
      const record = await bring(
        store,
        aBatch({
          lists: [{ ...aNewList('sheet', '2026-03-02'), there: list.id }],
          cases: [aNewCase('A', 2, { list: 'sheet' })],
          replace: [{ caseId: stored.id, case: aNewCase('B', 3, { list: 'sheet' }), timesSeen: false }],
        }),
      );
      expect(record.listsAdded).toEqual([]);
      expect((await store.cases()).map(({ code, listId }) => [code, listId]).sort()).toEqual([
        ['A', list.id],
        ['B', other.id],
      ]);
    });

    it('replaces values, keeping both facts and what was decided about the case', async () => {
      const store = await open();
      const leftOut = { reason: 'timing-unreliable' as const, timesSeen: true, at: now };
      const stored = await store.recordCase(aCase('A', { facts: { nucleus: 'hard' }, leftOut, sequence: 7 }));
      const coming = aNewCase('A', 5, { facts: { nucleus: 'soft' }, stretches: [] });
      await bring(store, aBatch({ replace: [{ caseId: stored.id, case: coming, timesSeen: true }] }));
      expect(await store.caseById(stored.id)).toMatchObject({
        facts: { nucleus: 'soft' },
        factChanges: [{ factId: 'nucleus', before: 'hard', after: 'soft', at: later }],
        stretches: [],
        leftOut,
        sequence: 7,
        version: 2,
        history: [{ at: later, what: 'Values replaced from times.csv, row 5' }],
      });
    });

    it('marks no fact as changed late where the times of the case had not been in sight', async () => {
      const store = await open();
      const stored = await store.recordCase(aCase('A', { facts: {}, stretches: [] }));
      const coming = aNewCase('A', 5, { facts: { nucleus: 'hard' }, stretches: [] });
      await bring(store, aBatch({ replace: [{ caseId: stored.id, case: coming, timesSeen: false }] }));
      expect(await store.caseById(stored.id)).toMatchObject({
        facts: { nucleus: 'hard' },
        factChanges: [],
        source: stored.source,
      });
    });

    it('does not replace a case kept as it is', async () => {
      const store = await open();
      const stored = await store.recordCase(aCase('A', { keptAsItIs: { since: now, why: 'a claim' } }));
      const batch = aBatch({ replace: [{ caseId: stored.id, case: aNewCase('A', 2), timesSeen: true }] });
      await expect(bring(store, batch)).rejects.toMatchObject({ code: 'kept-as-it-is' });
    });
  });

  describe('taking an import back', () => {
    it('removes what it added and returns what it replaced', async () => {
      const store = await open();
      const stored = await store.recordCase(aCase('Old', { facts: { nucleus: 'hard' } }));
      const replace = [{ caseId: stored.id, case: aNewCase('Old', 4, { facts: {} }), timesSeen: true }];
      const { id } = await bring(store, { ...twoCases, replace });
      const undone = await store.undoImport(id, later);
      expect(undone.undone).toBe(true);
      // The version goes on rising, so that a tab opened in between cannot write over what returned.
      expect(await store.cases()).toEqual([{ ...stored, version: 3 }]);
      expect([...(await store.lists()), ...(await store.references())]).toEqual([]);
      expect(await store.undoImport(id, later)).toEqual(undone);
    });

    it('never gives an id again', async () => {
      const store = await open();
      const { id } = await bring(store, twoCases);
      await store.undoImport(id, later);
      expect((await store.recordCase(aCase('C'))).id).toBe('case-3');
    });

    it('keeps a list that other cases lie in', async () => {
      const store = await open();
      const { id } = await bring(store, twoCases);
      await store.recordCase(aCase('Own', { listId: 'list-1' }));
      await store.undoImport(id, later);
      expect((await store.lists()).map((list) => list.id)).toEqual(['list-1']);
    });

    it('is refused where a goal or a reflection rests on its cases', async () => {
      const store = await open();
      const first = await bring(store, twoCases);
      await store.startGoal(aGoal(['case-1']));
      await expect(store.undoImport(first.id, later)).rejects.toMatchObject({
        code: 'in-use',
        message: expect.stringMatching(
          /^This import cannot be taken back as a whole: a (goal|result|reflection) .* Nothing was changed\. Leave a wrong case out/,
        ),
      });
      const second = await bring(store, aBatch({ cases: [aNewCase('C', 2)] }));
      await store.saveReflection(aReflection(['case-3']));
      await expect(store.undoImport(second.id, later)).rejects.toMatchObject({ code: 'in-use' });
      expect(await store.cases()).toHaveLength(3);
      await expect(store.undoImport('import-9', later)).rejects.toMatchObject({ code: 'not-found' });
    });
  });
};
