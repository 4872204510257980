import { describe, expect, it } from 'vitest';
import { emptyProfile } from '../../../src/lib/model';
import { recordNewList } from '../../../src/lib/server/new-list';
import { refuseIfStale, revisionOf } from '../../../src/lib/server/revision';
import { typedCase } from '../../../src/lib/server/typed-case';
import { StaleVersionError, type Store } from '../../../src/lib/server/storage';
import { aCase, aGoal, aList, now } from '../../made-up/stored';

const typed = (code: string) =>
  typedCase(
    { code, procedureId: 'phaco', position: null, facts: {}, hands: { whole: 'mine', steps: {} }, events: null },
    { stretches: [], returnsNoted: {}, protectedSeen: {} },
  );

export const togetherContract = (open: () => Promise<Store>) =>
  describe('changes made at once', () => {
    it('to the settings are all kept: each reads them as they are at its moment', async () => {
      const store = await open();
      await Promise.all(
        Array.from({ length: 50 }, (_, index) =>
          store.changeProfile((stored) => ({
            ...stored,
            casesBefore: { ...stored.casesBefore, [`procedure-${index}`]: index },
          })),
        ),
      );
      expect(Object.keys((await store.profile()).casesBefore)).toHaveLength(50);
    });

    it('to a list from two tabs: the second is told what is stored, and nothing of it is', async () => {
      const store = await open();
      const list = await store.recordList({ ...aList('2026-03-02'), operated: 8 });
      const seen = revisionOf(list.operated);
      const from = (operated: number) =>
        store.changeList(list.id, (stored) => {
          refuseIfStale(seen, stored.operated, 'This list', `operated ${stored.operated}`);
          return { ...stored, operated };
        });
      await from(9);
      const second = from(12);
      await expect(second).rejects.toBeInstanceOf(StaleVersionError);
      await expect(second).rejects.toThrow(/Stored now: operated 9\. What you typed is still here/);
      expect((await store.lists())[0]?.operated).toBe(9);
    });

    it('of typed cases give each place in time once', async () => {
      const store = await open();
      await store.recordCase(aCase('old', { sequence: 6.5 }));
      const made = await Promise.all(['A', 'B', 'C'].map((code) => store.recordCases(null, [typed(code)])));
      expect(made.map(({ cases }) => cases[0]?.sequence)).toEqual([7, 8, 9]);
    });

    it('of a list with its cases are one: refused for one code, nothing of it is there', async () => {
      const store = await open();
      await store.recordCase(aCase('taken'));
      const form = { label: null, when: { kind: 'unknown' as const }, procedureId: 'phaco', codes: ['A', 'taken'] };
      await expect(recordNewList(store, form)).rejects.toMatchObject({ code: 'duplicate-code' });
      expect([(await store.lists()).length, (await store.cases()).length]).toEqual([0, 1]);

      const both = await Promise.allSettled([1, 2].map(() => recordNewList(store, { ...form, codes: ['A', 'B'] })));
      expect(both.map(({ status }) => status)).toEqual(['fulfilled', 'rejected']);
      expect([(await store.lists()).length, (await store.cases()).length]).toEqual([1, 3]);
      expect(await store.cases()).toContainEqual(expect.objectContaining({ code: 'B', position: 2, listId: 'list-1' }));
    });

    it('as one are all done, or none where one of them is refused', async () => {
      const store = await open();
      const list = await store.recordList(aList('2026-03-02'));
      const answers = await store.together(() => [store.recordCase(aCase('A')), store.saveDraft('reflect', 'x')]);
      expect(answers[0].code).toBe('A');
      const refused = store.together(() => [
        store.saveDraft('reflect', 'y'),
        store.changeList(list.id, (stored) => ({ ...stored, operated: 5 })),
        store.recordCase(aCase('A')),
      ]);
      await expect(refused).rejects.toMatchObject({ code: 'duplicate-code' });
      expect([await store.draft('reflect'), (await store.lists())[0]?.operated]).toEqual(['x', null]);
      await store.changeProfile(() => ({ ...emptyProfile, largeType: true }));
      expect((await store.profile()).largeType).toBe(true);
    });

    it('to a goal build on what is stored, not on what was read before', async () => {
      const store = await open();
      const { id } = await store.startGoal(aGoal([]));
      await Promise.all(
        [1, 2, 3].map(() => store.changeGoal(id, (stored) => ({ ...stored, timesShown: [...stored.timesShown, now] }))),
      );
      expect((await store.goals())[0]?.timesShown).toHaveLength(3);
    });
  });
