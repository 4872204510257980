import { beforeAll, expect, it } from 'vitest';
import { openMemoryStore, type Store } from '../../src/lib/server/storage';
import { asked, filled, idOf, modules, paramsOf, queries, type Filled } from './rooms';

/** What a page or a file asks the store; everything else changes it. */
const READS: readonly (keyof Store)[] = [
  'place',
  'profile',
  'procedures',
  'lists',
  'cases',
  'caseById',
  'erasedCount',
  'heldImport',
  'heldImports',
  'imports',
  'goals',
  'results',
  'reflections',
  'removedReflection',
  'draft',
  'draftsNamed',
  'references',
  'everything',
  'readableEverything',
  'damaged',
  'backups',
  'changedSince',
  'newestBackup',
  'setAside',
  'secondFolder',
];

/** The store as a GET may have it: any other verb is an error. */
const onlyReads = (store: Store): Store =>
  new Proxy(store, {
    get(target, verb) {
      if (!READS.some((each) => each === verb)) throw new Error(`a GET asked the store to ${String(verb)}`);
      const value: unknown = Reflect.get(target, verb);
      return typeof value === 'function' ? value.bind(target) : value;
    },
  });

let here: Filled;
beforeAll(async () => {
  here = await filled(await openMemoryStore());
});

it.each(Object.keys(modules).map((file) => [idOf(file), file] as const))(
  'a GET of %s writes nothing',
  async (id, file) => {
    const { load, GET, POST } = (await modules[file]?.()) ?? {};
    const answer = load ?? GET;
    if (!answer) {
      // What only takes changes answers no GET at all.
      expect(POST).toBeTypeOf('function');
      return;
    }
    const before = JSON.stringify(await here.store.everything());
    const said: string[] = [];
    for (const params of paramsOf(id, here))
      for (const query of queries[id] ?? ['', '?said=stored', '?said=constructor'])
        said.push(await asked(onlyReads(here.store), answer, id, params, query));
    expect(JSON.stringify(await here.store.everything())).toBe(before);
    const other: Record<string, string> = {
      '/after-twenty': 'led elsewhere',
      '/sign-in': 'led elsewhere',
      // The cases of this record are too few for a packet.
      '/settings/packet/packet.json': '409',
    };
    expect(said).toContain(other[id] ?? 'answered');
  },
);

it('the store of this test refuses a change', () => {
  expect(() => onlyReads(here.store).saveDraft('a', 'b')).toThrow('a GET asked the store to saveDraft');
});
