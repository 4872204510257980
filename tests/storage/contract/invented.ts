import { describe, expect, it } from 'vitest';
import { emptyProfile } from '../../../src/lib/model';
import type { Store } from '../../../src/lib/server/storage';
import { aCase, aGoal, aReflection, aWholeRecord } from '../../made-up/stored';

export const inventedContract = (open: () => Promise<Store>) =>
  describe('an invented surgeon', () => {
    it('is marked, and goes in one change with all that rests on it', async () => {
      const store = await open();
      await store.changeProfile(() => ({ ...emptyProfile, largeType: true }));
      const before = await store.everything();
      await store.loadInvented(aWholeRecord());
      expect((await store.profile()).inTraining).toBe(true);
      const { cases, goals, reflections, references } = await store.everything();
      expect([...cases, ...goals, ...reflections, ...references].every(({ invented }) => invented)).toBe(true);

      await store.startGoal(aGoal(['case-1']));
      await store.saveReflection(aReflection(['case-2']));
      await store.saveDraft('timing/case-1', 'x');
      await store.removeInvented();

      expect(await store.everything()).toEqual(before);
      expect(await store.draft('timing/case-1')).toBeNull();
    });

    it('leaves cases of the surgeon and their list alone when it goes', async () => {
      const store = await open();
      await store.loadInvented(aWholeRecord());
      const own = await store.recordCase(aCase('Own', { sequence: 9, listId: 'list-1' }));
      await store.removeInvented();
      expect(await store.cases()).toEqual([own]);
      expect((await store.lists()).map(({ id }) => id)).toEqual(['list-1']);
    });

    it('is not mixed with real cases, nor with another one', async () => {
      const store = await open();
      const own = await store.recordCase(aCase('Own'));
      await expect(store.loadInvented(aWholeRecord())).rejects.toMatchObject({ code: 'in-use' });
      expect(await store.cases()).toEqual([own]);
      const second = await open();
      await second.loadInvented(aWholeRecord());
      await expect(second.loadInvented(aWholeRecord())).rejects.toMatchObject({ code: 'in-use' });
      expect(await second.cases()).toHaveLength(2);
    });

    it('can be removed when there is none', async () => {
      const store = await open();
      const own = await store.recordCase(aCase('Own'));
      await store.removeInvented();
      expect(await store.cases()).toEqual([own]);
    });
  });
