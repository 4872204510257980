import { describe, expect, it } from 'vitest';
import type { Store } from '../../../src/lib/server/storage';
import { aBatch, aCase, aGoal, aList, aNewCase, aReflection, later, now } from '../../made-up/stored';

export const eraseContract = (open: () => Promise<Store>) =>
  describe('erasing a case everywhere', () => {
    it('leaves a count and no trace of the case', async () => {
      const store = await open();
      const secret = await store.recordCase(aCase('SECRET-17', { sequence: 1 }));
      const other = await store.recordCase(aCase('Other', { sequence: 2 }));
      const edited = await store.updateCase({ ...secret, position: 4 }, 'SECRET-17 moved', now);
      const reflection = await store.saveReflection(aReflection([secret.id, other.id]));
      await store.startGoal(aGoal([secret.id, other.id]));
      await store.saveDraft(`timing/${secret.id}`, '{}');
      await store.saveDraft('reflect', JSON.stringify({ code: 'SECRET-17' }));
      await store.saveDraft('timing/case-2', 'about the other');
      const held = await store.holdImport({ heldAt: now, fileName: 'a.csv', text: 'case_id\nSECRET-17', choices: {} });

      await store.eraseCase(edited.id, later);

      expect(await store.erasedCount()).toBe(1);
      expect((await store.cases()).map(({ code }) => code)).toEqual(['Other']);
      expect(await store.reflections()).toEqual([{ ...reflection, ...aReflection([other.id]), version: 2 }]);
      const drafts = ['timing/case-1', 'reflect', 'timing/case-2'].map((key) => store.draft(key));
      expect(await Promise.all(drafts)).toEqual([null, null, 'about the other']);
      expect(await store.heldImport(held.id)).toBeNull();
      expect(JSON.stringify(await store.everything())).not.toContain('SECRET-17');
    });

    it('leaves nobody to say that nothing happened in the operation that is gone', async () => {
      const store = await open();
      const list = await store.recordList({ ...aList('2026-03-02'), operated: 8, eventsAnsweredForAll: true });
      const other = await store.recordList({ ...aList('2026-03-09'), operated: 8, eventsAnsweredForAll: true });
      const gone = await store.recordCase(aCase('A', { listId: list.id }));
      await store.eraseCase(gone.id, later);
      expect((await store.lists()).map(({ id, eventsAnsweredForAll }) => [id, eventsAnsweredForAll])).toEqual([
        [list.id, null],
        [other.id, true],
      ]);
    });

    it('counts in its list and its goals that events had been answered, and holds nothing else of it', async () => {
      const store = await open();
      const list = await store.recordList(aList('2026-03-02'));
      const event = {
        kind: 'SECRET-KIND',
        stepId: null,
        serious: true,
        nearMiss: false,
        noticed: 'later' as const,
        reviewed: { at: now, text: 'SECRET-REVIEW' },
      };
      const withEvent = await store.recordCase(aCase('SECRET-17', { listId: list.id, events: [event] }));
      const unasked = await store.recordCase(aCase('B', { listId: list.id, sequence: 2 }));
      const started = await store.startGoal(aGoal([withEvent.id, unasked.id]));
      const other = await store.startGoal(aGoal([]));
      await store.eraseCase(withEvent.id, later, [
        { goalId: started.id, part: 'baseline' },
        { goalId: other.id, part: 'window' },
      ]);
      await store.eraseCase(unasked.id, later, [{ goalId: started.id, part: 'baseline' }]);
      expect((await store.goals()).map(({ erased }) => erased)).toEqual([
        { baseline: { cases: 2, answered: 1 }, window: { cases: 0, answered: 0 } },
        { baseline: { cases: 0, answered: 0 }, window: { cases: 1, answered: 1 } },
      ]);
      expect((await store.lists()).map(({ erased }) => erased)).toEqual([{ cases: 2, answered: 1 }]);
      expect(JSON.stringify(await store.everything())).not.toContain('SECRET');
    });

    it('reaches what the undo of an import holds', async () => {
      const store = await open();
      const old = await store.recordCase(aCase('SECRET-17'));
      const held = await store.holdImport({ heldAt: now, fileName: 'a.csv', text: '', choices: {} });
      const batch = aBatch({
        replace: [{ caseId: old.id, case: aNewCase('SECRET-17', 2), timesSeen: true }],
        cases: [aNewCase('B', 3)],
      });
      await store.recordImport(held, batch, 'hash', now);
      await store.eraseCase(old.id, later);
      await store.undoImport(held.id, later);
      expect(await store.cases()).toEqual([]);
      expect(await store.imports()).toMatchObject([{ replaced: [], added: ['case-2'], undone: true }]);
    });

    it('never gives the id again, and says when there is nothing to erase', async () => {
      const store = await open();
      const { id } = await store.recordCase(aCase('A'));
      await store.eraseCase(id, now);
      expect((await store.recordCase(aCase('A'))).id).toBe('case-2');
      await expect(store.eraseCase(id, now)).rejects.toMatchObject({ code: 'not-found' });
      expect(await store.erasedCount()).toBe(1);
    });
  });
