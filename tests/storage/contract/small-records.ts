import { describe, expect, it } from 'vitest';
import { emptyProfile, type Procedure } from '../../../src/lib/model';
import { StaleVersionError, type Store } from '../../../src/lib/server/storage';
import { plainStep } from '../../made-up/plain';
import { aCase, aReference, aReflection, later, now } from '../../made-up/stored';

const step = (id: string) => ({ ...plainStep(), id, label: id });

const graft: Procedure = {
  id: 'graft',
  name: 'Corneal graft',
  synonyms: [],
  steps: [step('trephination'), step('suturing')],
  facts: [],
  waitingReasons: [],
  eventKinds: [],
  origin: 'own',
};

export const smallRecordsContract = (open: () => Promise<Store>) => {
  describe('settings', () => {
    it('starts from the empty profile and keeps changes', async () => {
      const store = await open();
      expect(await store.profile()).toEqual(emptyProfile);
      await store.changeProfile(() => ({ ...emptyProfile, procedureId: 'sics', largeType: true }));
      expect(await store.profile()).toMatchObject({ procedureId: 'sics', largeType: true });
    });

    it('keeps one procedure an id', async () => {
      const store = await open();
      await store.changeProcedure(graft.id, () => graft);
      await store.changeProcedure(graft.id, () => ({ ...graft, name: 'Lamellar graft' }));
      expect(await store.procedures()).toEqual([{ ...graft, name: 'Lamellar graft' }]);
      const broken = { ...graft, steps: [step('suturing'), step('suturing')] };
      await expect(store.changeProcedure(broken.id, () => broken)).rejects.toMatchObject({ code: 'invalid' });
    });

    it('removes a procedure of the surgeon’s own only while nothing is of it, and an edit of a shipped one always', async () => {
      const store = await open();
      await store.changeProcedure(graft.id, () => graft);
      await store.recordCase(aCase('G1', { procedureId: 'graft', stretches: [] }));
      await expect(store.changeProcedure('graft', () => null)).rejects.toMatchObject({ code: 'in-use' });
      await store.changeProcedure('phaco', () => ({ ...graft, origin: 'shipped' }));
      await store.recordCase(aCase('P1'));
      await store.changeProcedure('phaco', () => null);
      expect(await store.procedures()).toEqual([graft]);
      await store.eraseCase((await store.cases())[0]?.id ?? '', now);
      await store.changeProcedure('graft', () => null);
      expect(await store.procedures()).toEqual([]);
    });
  });

  describe('reflections', () => {
    it('are kept in order of arrival and changed from the version seen', async () => {
      const store = await open();
      const first = await store.saveReflection(aReflection([]));
      const second = await store.saveReflection(aReflection([], { saw: 'Second' }));
      const changed = await store.updateReflection({ ...first, willTry: 'Refill earlier' });
      expect(changed).toEqual({ ...first, willTry: 'Refill earlier', version: 2 });
      expect(await store.reflections()).toEqual([changed, second]);
      await expect(store.updateReflection(first)).rejects.toBeInstanceOf(StaleVersionError);
    });

    it('are removed from the version seen, and put back for a day under their own id', async () => {
      const store = await open();
      const first = await store.saveReflection(aReflection([]));
      await store.saveDraft(`reflection-change:${first.id}`, '{}');
      await expect(store.removeReflection(first.id, 7, now)).rejects.toBeInstanceOf(StaleVersionError);
      await store.removeReflection(first.id, 1, now);
      expect([await store.reflections(), await store.draft(`reflection-change:${first.id}`)]).toEqual([[], null]);
      expect(await store.removedReflection(later)).toEqual(first);
      const second = await store.saveReflection(aReflection([], { saw: 'Second' }));
      expect(second.id).not.toBe(first.id);
      await expect(store.putBackReflection(second.id, later)).rejects.toMatchObject({ code: 'not-found' });
      expect(await store.putBackReflection(first.id, later)).toEqual({ ...first, version: 2 });
      expect((await store.reflections()).map(({ id }) => id).sort()).toEqual([first.id, second.id]);
      await expect(store.putBackReflection(first.id, later)).rejects.toMatchObject({ code: 'not-found' });
    });

    it('that were removed are gone after a day, with the next one stored, and when their case is erased', async () => {
      const store = await open();
      const one = await store.recordCase(aCase('A'));
      const tied = await store.saveReflection(aReflection([one.id]));
      await store.removeReflection(tied.id, 1, now);
      await store.eraseCase(one.id, now);
      expect(await store.removedReflection(now)).toBeNull();
      const other = await store.saveReflection(aReflection([], { saw: 'A word to be forgotten' }));
      await store.removeReflection(other.id, 1, now);
      const tomorrow = new Date(Date.parse(now) + 25 * 3_600_000).toISOString();
      expect(await store.removedReflection(tomorrow)).toBeNull();
      await expect(store.putBackReflection(other.id, tomorrow)).rejects.toMatchObject({ code: 'not-found' });
      await store.saveReflection({ ...aReflection([]), at: tomorrow });
      expect(await store.draft('removed-reflection')).toBeNull();
    });
  });

  describe('drafts', () => {
    it('are kept by any key, changed and dropped', async () => {
      const store = await open();
      expect(await store.draft('reflect')).toBeNull();
      await Promise.all(['a', 'b', 'c'].map((value) => store.saveDraft('reflect', value)));
      await store.saveDraft('__proto__', 'odd');
      expect([await store.draft('reflect'), await store.draft('__proto__'), await store.draft('toString')]).toEqual([
        'c',
        'odd',
        null,
      ]);
      await store.dropDraft('reflect');
      expect(await store.draft('reflect')).toBeNull();
    });

    it('are read and changed in one, and found by the beginning of their key, the one saved last at the end', async () => {
      const store = await open();
      const more = (stored: string | null) => `${stored ?? ''}x`;
      await Promise.all([1, 2, 3].map(() => store.changeDraft('timing:A', more)));
      expect(await store.draft('timing:A')).toBe('xxx');
      await store.saveDraft('timing:B', 'b');
      await store.saveDraft('reflect', 'r');
      await store.changeDraft('timing:A', more);
      expect(await store.draftsNamed('timing:')).toEqual([
        { key: 'timing:B', value: 'b' },
        { key: 'timing:A', value: 'xxxx' },
      ]);
      const refuse = () => {
        throw new Error('kept elsewhere');
      };
      await expect(store.changeDraft('timing:A', refuse)).rejects.toThrow('kept elsewhere');
      expect(await store.draft('timing:A')).toBe('xxxx');
    });
  });

  describe('reference sets', () => {
    it('are kept whole and removed whole', async () => {
      const store = await open();
      const set = await store.saveReference(aReference);
      expect(await store.references()).toEqual([{ ...aReference, id: 'reference-1' }]);
      await store.removeReference(set.id);
      expect(await store.references()).toEqual([]);
      expect((await store.saveReference(aReference)).id).toBe('reference-2');
      await expect(store.removeReference(set.id)).rejects.toMatchObject({ code: 'not-found' });
    });
  });
};
