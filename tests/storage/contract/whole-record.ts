import { describe, expect, it } from 'vitest';
import type { Store } from '../../../src/lib/server/storage';
import { aCase, aList, aReference, aWholeRecord } from '../../made-up/stored';

export const wholeRecordContract = (open: () => Promise<Store>) =>
  describe('the whole record', () => {
    it('goes out and comes in again as it was', async () => {
      const store = await open();
      await store.restoreEverything(aWholeRecord());
      expect(await store.everything()).toEqual(aWholeRecord());
    });

    it('goes on numbering after what came in', async () => {
      const store = await open();
      await store.restoreEverything(aWholeRecord());
      expect((await store.recordCase(aCase('New', { sequence: 3 }))).id).toBe('case-3');
      expect((await store.recordList(aList('2026-04-01'))).id).toBe('list-2');
      expect((await store.saveReference(aReference)).id).toBe('reference-2');
    });

    it('is never mixed with another one', async () => {
      const store = await open();
      await store.recordCase(aCase('Own'));
      await expect(store.restoreEverything(aWholeRecord())).rejects.toMatchObject({ code: 'in-use' });
      expect((await store.cases()).map(({ code }) => code)).toEqual(['Own']);
    });

    it('is refused whole when a part does not fit', async () => {
      const store = await open();
      const whole = aWholeRecord();
      const twice = { ...whole, cases: whole.cases.map((each) => ({ ...each, code: 'same' })) };
      await expect(store.restoreEverything(twice)).rejects.toMatchObject({ code: 'invalid' });
      await expect(store.restoreEverything({ ...whole, lists: [] })).rejects.toMatchObject({ code: 'invalid' });
      await expect(store.restoreEverything({ ...whole, goals: [] })).rejects.toMatchObject({ code: 'invalid' });
      expect(await store.cases()).toEqual([]);
    });
  });
