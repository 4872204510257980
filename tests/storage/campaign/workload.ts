import { isDeepStrictEqual } from 'node:util';
import type { Store } from '../../../src/lib/server/storage';
import { aBatch, aCase, aGoal, aNewCase, aNewList, aReflection, now } from '../../made-up/stored';

/** One change of a record, of each kind of write there is: one file, several, a new one, one removed, one erased everywhere. */
export type Step = { name: string; change: (store: Store, number: number) => Promise<unknown> };

const last = async (store: Store) => {
  const found = (await store.cases()).at(-1);
  if (!found) throw new Error('there should be a case by now');
  return found;
};

export const STEPS: readonly Step[] = [
  { name: 'a case', change: (store, number) => store.recordCase(aCase(`one-${number}`, { sequence: number })) },
  {
    name: 'an edit',
    change: async (store, number) => store.updateCase({ ...(await last(store)), position: number }, 'Place', now),
  },
  {
    name: 'a file that waits',
    change: (store, number) =>
      store.holdImport({ heldAt: now, fileName: `${number}.csv`, text: 'x'.repeat(200), choices: {} }),
  },
  {
    name: 'an import',
    change: async (store, number) => {
      const batch = aBatch({
        lists: [{ ...aNewList('list', '2026-03-02'), label: `list ${number}` }],
        cases: [aNewCase(`many-${number}`, 2, { list: 'list' })],
      });
      const held = { id: `import-${(await store.imports()).length + 1}`, fileName: `${number}.csv` };
      return store.recordImport(held, batch, 'hash', now);
    },
  },
  { name: 'a goal', change: async (store) => store.startGoal(aGoal([(await last(store)).id])) },
  { name: 'a reflection', change: async (store) => store.saveReflection(aReflection([(await last(store)).id])) },
  {
    name: 'settings',
    change: (store) => store.changeProfile((profile) => ({ ...profile, largeType: !profile.largeType })),
  },
  { name: 'a draft', change: (store, number) => store.saveDraft('reflect', `draft ${number}`) },
  { name: 'a case erased', change: async (store) => store.eraseCase((await last(store)).id, now) },
  {
    name: 'going back',
    change: async (store) => {
      const [newest] = await store.backups();
      return newest ? store.restoreBackup(newest.at, null, now) : null;
    },
  },
];

/** All that a person would miss. */
export const stateOf = async (store: Store): Promise<object> => ({
  everything: await store.everything(),
  erased: await store.erasedCount(),
  draft: await store.draft('reflect'),
  imports: await store.imports(),
});

export const isSame = (one: object, other: object): boolean =>
  isDeepStrictEqual(JSON.parse(JSON.stringify(one)), JSON.parse(JSON.stringify(other)));
