import { describe, expect, it } from 'vitest';
import { AboutPersons, askingAboutPersons, TypedTextError, withNone } from '../../src/lib/server/about-persons';
import { attempt } from '../../src/lib/server/attempt';
import { newList } from '../../src/lib/server/typed-case';
import { openMemoryStore, type Store } from '../../src/lib/server/storage';
import { asksWhoIn } from '../../src/lib/ui/asks-who-in';
import { aCase, now } from '../made-up/stored';

const WHO = 'Mrs B';
const SAYS = '"Mrs B" looks like a name: leave it out, or say that it is none.';

/** A request whose form holds these fields, on a store of its own. */
async function asking(fields: Record<string, string>, none: readonly string[] = []) {
  const plain = await openMemoryStore();
  const about = new AboutPersons(none);
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.set(name, value);
  about.heardForm(form);
  return { plain, about, store: askingAboutPersons(plain, about) };
}

const unknown = { kind: 'unknown' } as const;
const own = { id: 'own-1', procedureId: 'phaco', stepId: 'capsulorhexis', look: 'x', text: '', at: now };

/** A change by every verb that takes typed text, each with the bit in one of its texts. */
const changes: readonly [what: string, change: (store: Store) => Promise<unknown>][] = [
  ['the label of a list', (store) => store.recordList(newList(WHO, unknown))],
  ['the label of a list with its cases', (store) => store.recordCases(newList(`with ${WHO}`, unknown), [])],
  [
    'an own checkpoint',
    (store) => store.changeProfile((p) => ({ ...p, ownCheckpoints: [{ ...own, look: `as ${WHO}` }] })),
  ],
  ['its text', (store) => store.changeProfile((p) => ({ ...p, ownCheckpoints: [{ ...own, text: `as ${WHO}` }] }))],
  [
    'where a rate comes from',
    (store) => store.changeProfile((p) => ({ ...p, seriousRate: { rate: 0.02, source: WHO } })),
  ],
  [
    'the name of a procedure',
    (store) =>
      store.changeProcedure('own', () => ({
        id: 'own',
        name: `${WHO} operation`,
        synonyms: [],
        facts: [],
        waitingReasons: [],
        eventKinds: [],
        origin: 'own',
        steps: ['a', 'b'].map((id) => ({
          id,
          label: id,
          starts: 'x',
          ends: 'y',
          synonyms: [],
          earlier: [],
          optional: false,
          notToShorten: false,
          protectedParts: [],
          retired: false,
        })),
      })),
  ],
  [
    'why a case is kept as it is',
    (store) => store.recordCase({ ...aCase('A'), keptAsItIs: { since: now, why: `claim of ${WHO}` } }),
  ],
  [
    'a review of an event',
    (store) =>
      store.recordCase({
        ...aCase('A'),
        events: [
          {
            kind: 'other',
            stepId: null,
            serious: true,
            nearMiss: false,
            noticed: 'during',
            reviewed: { at: now, text: `told ${WHO}` },
          },
        ],
      }),
  ],
  ['a line of history', async (store) => store.updateCase(await store.recordCase(aCase('A')), `Lifted: ${WHO}`, now)],
];

describe('a text that looks like a person', () => {
  it.each(changes)('is asked about in %s, and nothing is stored', async (_, change) => {
    const { plain, store } = await asking({ other: 'x', typed: `here ${WHO} there` });
    const before = JSON.stringify({ ...(await plain.everything()), cases: [] });
    const { refused } = await attempt('elsewhere', async () => change(store));
    expect(refused).toEqual({ field: 'typed', message: SAYS });
    expect(asksWhoIn(refused?.message)).toBe(true);
    expect(JSON.stringify({ ...(await plain.everything()), cases: [] })).toBe(before);
  });

  it.each(changes)('is stored in %s once it is said to be none, and that is kept', async (_, change) => {
    const { about, plain, store } = await asking({ typed: WHO, nobody: 'yes' });
    await change(store);
    expect([...about.saidNone]).toEqual([WHO]);
    await plain.changeProfile((profile) => withNone(profile, about.saidNone));
    expect((await plain.profile()).notPersons).toEqual([WHO]);
    const again = await asking({ typed: WHO }, (await plain.profile()).notPersons);
    await change(again.store);
  });

  it.each(changes)('is not asked about in %s where it was not typed now', async (_, change) => {
    const { store } = await asking({ typed: 'something else' });
    await change(store);
  });

  it('refuses several changes that are one as a whole', async () => {
    const { plain, store } = await asking({ label: WHO });
    await expect(
      store.together(() => [store.saveDraft('kept', 'x'), store.recordList(newList(WHO, unknown))]),
    ).rejects.toBeInstanceOf(TypedTextError);
    expect([await plain.draft('kept'), await plain.lists()]).toEqual([null, []]);
  });

  it('stands beside its field before a draft is kept', async () => {
    const { about } = await asking({ newListLabel: WHO });
    expect(about.errorsIn(['newListLabel', 'other'], 'label')).toEqual([{ field: 'newListLabel', message: SAYS }]);
  });
});
