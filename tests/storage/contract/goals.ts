import { describe, expect, it } from 'vitest';
import type { Store } from '../../../src/lib/server/storage';
import { aCase, aGoal, aLasting, aResult, later, now } from '../../made-up/stored';

export const goalsContract = (open: () => Promise<Store>) =>
  describe('goals and results', () => {
    const withCase = async () => {
      const store = await open();
      const { id } = await store.recordCase(aCase('A'));
      return { store, ids: [id] };
    };

    it('keeps goals and what becomes of them', async () => {
      const { store, ids } = await withCase();
      const goal = await store.startGoal(aGoal(ids));
      const decided = {
        ...goal,
        state: 'closed' as const,
        decisions: [{ at: later, kind: 'keep' as const, reason: 'lasted' }],
      };
      await store.changeGoal(decided.id, () => decided);
      expect(await store.goals()).toEqual([decided]);
      await expect(store.changeGoal('goal-2', () => goal)).rejects.toMatchObject({ code: 'not-found' });
    });

    it('fixes the baseline cases once a goal runs, not while it is a draft', async () => {
      const { store, ids } = await withCase();
      const goal = await store.startGoal(aGoal([], { state: 'draft' }));
      const running = { ...goal, state: 'running' as const, baseline: { ...goal.baseline, caseIds: ids } };
      await store.changeGoal(running.id, () => running);
      const moved = store.changeGoal(running.id, (stored) => ({
        ...stored,
        baseline: { ...stored.baseline, caseIds: [] },
      }));
      await expect(moved).rejects.toMatchObject({ code: 'invalid' });
      expect(await store.goals()).toEqual([running]);
    });

    it('stores one result a goal and look', async () => {
      const { store, ids } = await withCase();
      const { id } = await store.startGoal(aGoal(ids));
      const first = await store.storeResult(aResult(id, ids));
      await expect(store.storeResult({ ...aResult(id, ids), storedAt: now })).rejects.toMatchObject({
        code: 'already-there',
      });
      const second = await store.storeResult(aResult(id, ids, 'second'));
      expect(await store.results()).toEqual([first, second]);
      await expect(store.storeResult(aResult('goal-9', ids))).rejects.toMatchObject({ code: 'not-found' });
    });

    it('keeps whether a result lasted as it was read first, a following twenty at a time', async () => {
      const { store, ids } = await withCase();
      const { id } = await store.startGoal(aGoal(ids));
      const result = await store.storeResult(aResult(id, ids));
      const first = { at: now, lasting: aLasting(1, 'lasted') };
      const second = { at: later, lasting: aLasting(2, 'partly') };
      await store.storeLasted(result.id, [first]);
      const changed = await store.storeLasted(result.id, [{ at: later, lasting: aLasting(1, 'faded') }, second]);
      expect(changed).toEqual({ ...result, lasted: [first, second] });
      expect(await store.results()).toEqual([changed]);
      await expect(store.storeLasted('result-9', [first])).rejects.toMatchObject({ code: 'not-found' });
    });
  });
