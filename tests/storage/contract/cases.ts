import { describe, expect, it } from 'vitest';
import { StaleVersionError, type Store } from '../../../src/lib/server/storage';
import { aCase, aList, later, now } from '../../made-up/stored';

export const casesContract = (open: () => Promise<Store>) =>
  describe('cases', () => {
    it('gives ids in order of arrival and shows cases in order of time', async () => {
      const store = await open();
      const second = await store.recordCase(aCase('B', { sequence: 2 }));
      const first = await store.recordCase(aCase('A', { sequence: 1 }));
      expect([second.id, first.id]).toEqual(['case-1', 'case-2']);
      expect((await store.cases()).map(({ code }) => code)).toEqual(['A', 'B']);
      expect(await store.caseById('case-1')).toEqual(second);
      expect(await store.caseById('case-9')).toBeNull();
      expect(second).toMatchObject({ version: 1, history: [] });
    });

    it('refuses a second case of one code, and writes nothing of a change it refuses', async () => {
      const store = await open();
      await store.recordCase(aCase('A'));
      const b = await store.recordCase(aCase('B', { sequence: 2 }));
      await expect(store.recordCase(aCase('A'))).rejects.toMatchObject({ code: 'duplicate-code' });
      await expect(store.updateCase({ ...b, code: 'A' }, 'code', now)).rejects.toMatchObject({
        code: 'duplicate-code',
      });
      expect((await store.cases()).map(({ code, version }) => [code, version])).toEqual([
        ['A', 1],
        ['B', 1],
      ]);
    });

    it('lets two cases swap their codes in one change', async () => {
      const store = await open();
      const [a, b] = [await store.recordCase(aCase('A')), await store.recordCase(aCase('B', { sequence: 2 }))];
      await store.updateCases([{ ...a, code: 'B' }, { ...b, code: 'A' }], 'codes swapped', now); // prettier-ignore
      expect((await store.cases()).map(({ id, code }) => [id, code])).toEqual([
        ['case-1', 'B'],
        ['case-2', 'A'],
      ]);
    });

    it('keeps a line of history and raises the version with each change', async () => {
      const store = await open();
      const stored = await store.recordCase(aCase('A'));
      const changed = await store.updateCase({ ...stored, facts: { nucleus: 'hard' } }, 'Nucleus entered', later);
      expect(changed).toMatchObject({
        version: 2,
        facts: { nucleus: 'hard' },
        history: [{ at: later, what: 'Nucleus entered' }],
      });
      expect(await store.caseById(stored.id)).toEqual(changed);
    });

    it('never lets a caller rewrite the history', async () => {
      const store = await open();
      const stored = await store.recordCase(aCase('A'));
      const once = await store.updateCase(stored, 'first', now);
      const twice = await store.updateCase({ ...once, history: [] }, 'second', later);
      expect(twice.history.map(({ what }) => what)).toEqual(['first', 'second']);
    });

    it('refuses a change made from an older version', async () => {
      const store = await open();
      const stored = await store.recordCase(aCase('A'));
      await store.updateCase({ ...stored, position: 2 }, 'place', now);
      const stale = store.updateCase({ ...stored, position: 3 }, 'place', later);
      await expect(stale).rejects.toBeInstanceOf(StaleVersionError);
      expect((await store.caseById(stored.id))?.position).toBe(2);
    });

    it('changes several cases together or none of them', async () => {
      const store = await open();
      const a = await store.recordCase(aCase('A'));
      const b = await store.recordCase(aCase('B', { sequence: 2 }));
      const bad = store.updateCases(
        [
          { ...a, facts: { pupil: 'small' } },
          { ...b, version: 7 },
        ],
        'facts',
        now,
      );
      await expect(bad).rejects.toBeInstanceOf(StaleVersionError);
      expect((await store.cases()).map(({ version }) => version)).toEqual([1, 1]);
      const done = await store.updateCases([a, b], 'facts', now);
      expect(done.map(({ version }) => version)).toEqual([2, 2]);
      const each = await store.updateCases(done, ['Nucleus entered', 'Pupil entered'], later);
      expect(each.map(({ history }) => history.at(-1)?.what)).toEqual(['Nucleus entered', 'Pupil entered']);
    });

    it('moves cases to a list made with the change, or makes neither', async () => {
      const store = await open();
      const a = await store.recordCase(aCase('A'));
      const b = await store.recordCase(aCase('B', { sequence: 2 }));
      const moved = await store.updateCases([a, b], 'List changed', now, aList('2026-03-12'));
      const [list] = await store.lists();
      expect(moved.map(({ listId }) => listId)).toEqual([list?.id, list?.id]);
      expect(list).toMatchObject({ when: { kind: 'date', date: '2026-03-12' } });
      const stale = store.updateCases([a], 'List changed', later, aList('2026-03-13'));
      await expect(stale).rejects.toBeInstanceOf(StaleVersionError);
      expect(await store.lists()).toHaveLength(1);
    });

    it('refuses what does not fit the model, naming the field', async () => {
      const store = await open();
      const bad = store.recordCase(aCase('A', { position: 0 }));
      await expect(bad).rejects.toMatchObject({ code: 'invalid', message: expect.stringContaining('position') });
      await expect(store.recordCase(aCase('A', { listId: 'list-3' }))).rejects.toMatchObject({ code: 'not-found' });
      expect(await store.cases()).toEqual([]);
    });

    it('keeps a case as it is until that is lifted', async () => {
      const store = await open();
      const stored = await store.recordCase(aCase('A', { keptAsItIs: { since: now, why: 'a complaint' } }));
      const edit = store.updateCase({ ...stored, position: 1 }, 'place', later);
      await expect(edit).rejects.toMatchObject({ code: 'kept-as-it-is' });
      const both = store.updateCase({ ...stored, position: 1, keptAsItIs: null }, 'lifted and edited', later);
      await expect(both).rejects.toMatchObject({ code: 'kept-as-it-is' });
      await expect(store.eraseCase(stored.id, later)).rejects.toMatchObject({ code: 'kept-as-it-is' });
      const lifted = await store.updateCase({ ...stored, keptAsItIs: null }, 'Lifted: settled', later);
      expect(lifted).toMatchObject({ keptAsItIs: null, history: [{ what: 'Lifted: settled' }] });
    });

    it('hands out what nobody can change by mistake', async () => {
      const store = await open();
      await store.recordCase(aCase('A', { facts: { nucleus: 'hard' } }));
      const [stored] = await store.cases();
      expect(() => Object.assign(stored?.facts ?? {}, { nucleus: 'soft' })).toThrow(TypeError);
      (await store.cases()).pop();
      expect(await store.cases()).toHaveLength(1);
    });

    it('keeps lists and changes them', async () => {
      const store = await open();
      const list = await store.recordList(aList('2026-03-02'));
      expect(list.id).toBe('list-1');
      await store.changeList(list.id, (stored) => ({ ...stored, operated: 6 }));
      expect(await store.lists()).toEqual([{ ...list, operated: 6 }]);
      await expect(store.changeList('list-2', () => list)).rejects.toMatchObject({ code: 'not-found' });
    });

    it('answers many changes made at once, each with its own', async () => {
      const store = await open();
      const codes = Array.from({ length: 30 }, (_, index) => `C${index + 1}`);
      const stored = await Promise.all(
        codes.map((code, index) => store.recordCase(aCase(code, { sequence: index + 1 }))),
      );
      expect(stored.map(({ code }) => code)).toEqual(codes);
      expect((await store.cases()).map(({ id }) => id)).toEqual(stored.map(({ id }) => id));
    });
  });
