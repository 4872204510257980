import { describe, expect, it } from 'vitest';
import { CHANGED_SINCE, changeCases, importedLast, lastUndo, undoLast } from '../../../src/lib/server/last-change';
import { readRecord } from '../../../src/lib/server/record';
import type { Store } from '../../../src/lib/server/storage';
import { aBatch, aCase, aNewCase, later, now } from '../../made-up/stored';

const KEY = 'undo-last-change';

const offer = async (store: Store, ...ids: string[]) => {
  const undo = await lastUndo(store, await readRecord(store), ids, later);
  return undo?.kind === 'offered' ? undo : null;
};
const undo = async (store: Store, id: string, of?: string) =>
  undoLast(store, await readRecord(store), [id], of ?? (await offer(store, id))?.of ?? '', later);
const lines = async (store: Store, id: string) => (await store.caseById(id))?.history.map(({ what }) => what);

/** Undoing the change made last, on every adapter: what stood there before is kept beside the cases, among the drafts. */
export const lastChangeContract = (open: () => Promise<Store>) =>
  describe('undoing the change made last', () => {
    const withTwo = async () => {
      const store = await open();
      const first = await store.recordCase(aCase('A', { sequence: 1 }));
      const second = await store.recordCase(aCase('B', { sequence: 2 }));
      return { store, first, second };
    };

    it('goes back and forth, a version and a line of history each time', async () => {
      const { store, first } = await withTwo();
      await changeCases(store, [{ case: { ...first, position: 7 }, what: 'Place: none → 7' }], now);
      expect(await undo(store, first.id)).toBeNull();
      expect(await store.caseById(first.id)).toMatchObject({ position: null, version: 3 });
      expect(await undo(store, first.id)).toBeNull();
      expect(await store.caseById(first.id)).toMatchObject({ position: 7, version: 4 });
      expect(await lines(store, first.id)).toEqual([
        'Place: none → 7',
        'Undone: Place: none → 7',
        'Done again: Place: none → 7',
      ]);
    });

    it('undoes the rows of a list together, or none of them', async () => {
      const { store, first, second } = await withTwo();
      const both = [first, second].map((one) => ({ case: { ...one, position: 3 }, what: 'Place' }));
      await changeCases(store, both, now);
      expect((await offer(store, second.id))?.cases).toBe(2);
      expect(await undo(store, second.id)).toBeNull();
      expect((await store.cases()).map(({ position }) => position)).toEqual([null, null]);
      const again = (await store.caseById(second.id))!;
      await store.updateCase({ ...again, position: 4 }, 'Place', now);
      expect(await offer(store, first.id)).toBeNull();
      expect(await undo(store, first.id)).toBe(CHANGED_SINCE);
    });

    it('undoes no other change than the one that was shown', async () => {
      const { store, first } = await withTwo();
      await changeCases(store, [{ case: { ...first, position: 7 }, what: 'Place' }], now);
      const shown = (await offer(store, first.id))?.of;
      const changed = (await store.caseById(first.id))!;
      await changeCases(store, [{ case: { ...changed, facts: { nucleus: 'hard' } }, what: 'Nucleus' }], now);
      expect(await undo(store, first.id, shown)).toBe(CHANGED_SINCE);
      expect(await store.caseById(first.id)).toMatchObject({ position: 7, facts: { nucleus: 'hard' }, version: 3 });
    });

    it('offers nothing for a change that was refused', async () => {
      const { store, first, second } = await withTwo();
      const taken = changeCases(store, [{ case: { ...first, code: second.code }, what: 'Code' }], now);
      await expect(taken).rejects.toMatchObject({ code: 'duplicate-code' });
      expect(await offer(store, first.id)).toBeNull();
      const stale = changeCases(store, [{ case: { ...first, version: 9 }, what: 'Place' }], now);
      await expect(stale).rejects.toThrow('changed elsewhere');
      expect(await offer(store, first.id)).toBeNull();
    });

    it('is refused once the case is kept as it is', async () => {
      const { store, first } = await withTwo();
      const keptAsItIs = { since: now, why: 'a claim' };
      await changeCases(store, [{ case: { ...first, keptAsItIs }, what: 'Kept as it is: a claim' }], now);
      expect(await undo(store, first.id)).toContain('kept as it is');
      expect((await store.caseById(first.id))?.keptAsItIs).toEqual(keptAsItIs);
    });

    it('forgets how an erased case stood, also as one of several and by a code it no longer has', async () => {
      const { store, first, second } = await withTwo();
      const renamed = { case: { ...first, code: 'New' }, what: 'Code: A → New' };
      await changeCases(store, [renamed, { case: { ...second, position: 2 }, what: 'Place' }], now);
      expect(await store.draft(KEY)).toContain('"code":"A"');
      await store.eraseCase(first.id, later);
      expect(await store.draft(KEY)).toBeNull();
      expect(await offer(store, second.id)).toBeNull();
    });

    it('goes into no copy of the record', async () => {
      const { store, first } = await withTwo();
      await changeCases(store, [{ case: { ...first, facts: { nucleus: 'SECRET' } }, what: 'Nucleus' }], now);
      const changed = (await store.caseById(first.id))!;
      await changeCases(store, [{ case: { ...changed, facts: {} }, what: 'Nucleus' }], now);
      expect(await store.draft(KEY)).toContain('SECRET');
      expect(JSON.stringify(await store.everything())).not.toContain('SECRET');
    });

    it('leaves what an import replaced to the undo of that import', async () => {
      const { store, first } = await withTwo();
      await changeCases(store, [{ case: { ...first, position: 7 }, what: 'Place' }], now);
      const held = await store.holdImport({ heldAt: now, fileName: 'sheet.csv', text: '', choices: {} });
      const replace = [{ caseId: first.id, case: aNewCase('A', 2, { facts: { nucleus: 'hard' } }), timesSeen: false }];
      await store.recordImport(held, aBatch({ replace }), 'hash', later);
      const replaced = (await store.caseById(first.id))!;
      expect(await offer(store, first.id)).toBeNull();
      expect(await importedLast(store, replaced)).toBe('sheet.csv');
      await store.undoImport(held.id, later);
      expect(await importedLast(store, (await store.caseById(first.id))!)).toBeNull();
      expect(await offer(store, first.id)).toBeNull();
      expect(await undo(store, first.id)).toBe(CHANGED_SINCE);
    });
  });
