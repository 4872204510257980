import { describe, expect, it } from 'vitest';
import { StorageError } from '../../src/lib/server/storage';
import type { DocumentName } from '../../src/lib/server/storage/documents';
import { Shelf, type Changes, type Keeper } from '../../src/lib/server/storage/shelf';

/** A keeper whose writes end when the test says so. */
function aKeeper() {
  const writes: { changes: Changes; end: () => void; fail: (why: Error) => void }[] = [];
  const held = new Map<DocumentName, object>();
  const keeper: Keeper = {
    place: 'test',
    backups: null,
    document: (name) => held.get(name) ?? null,
    names: () => held.keys(),
    keep: async (changes) => {
      await new Promise<void>((end, fail) => writes.push({ changes: new Map(changes), end, fail }));
      for (const [name, document] of changes)
        if (document) held.set(name, document);
        else held.delete(name);
    },
    close: async () => {},
  };
  return { keeper, writes };
}

const settled = () => new Promise((resolve) => setTimeout(resolve));
const save = (shelf: Shelf, key: string) =>
  shelf.change((draft) =>
    draft.write('drafts', { values: { ...(draft.read('drafts')?.values ?? {}), [key]: 'saved' } }),
  );
const keysOf = (shelf: Shelf) => Object.keys(shelf.read('drafts')?.values ?? {});

describe('changes on a shelf', () => {
  it('made at once join one write; those made while it runs join one more', async () => {
    const { keeper, writes } = aKeeper();
    const shelf = new Shelf(keeper);
    const first = [save(shelf, 'a'), save(shelf, 'b')];
    await settled();
    const second = ['c', 'd', 'e'].map((key) => save(shelf, key));
    await settled();
    expect(writes).toHaveLength(1);
    writes[0]?.end();
    await Promise.all(first);
    await settled();
    expect(writes).toHaveLength(2);
    writes[1]?.end();
    await Promise.all(second);
    expect(keysOf(shelf)).toEqual(['a', 'b', 'c', 'd', 'e']);
  });

  it('are seen by readers only when they are durable, and by later changes at once', async () => {
    const { keeper, writes } = aKeeper();
    const shelf = new Shelf(keeper);
    const first = save(shelf, 'a');
    const seen = shelf.change((draft) => Object.keys(draft.read('drafts')?.values ?? {}));
    expect(keysOf(shelf)).toEqual([]);
    expect(await seen).toEqual(['a']);
    await settled();
    writes[0]?.end();
    await first;
    expect(keysOf(shelf)).toEqual(['a']);
  });

  it('that could not be written are gone, with those built on them; the next one works', async () => {
    const { keeper, writes } = aKeeper();
    const shelf = new Shelf(keeper);
    const failing = save(shelf, 'a').catch((why: Error) => why.message);
    await settled();
    const builtOnIt = save(shelf, 'b').catch((why: Error) => why.message);
    writes[0]?.fail(new Error('full'));
    expect([await failing, await builtOnIt]).toEqual(['full', 'full']);
    expect(keysOf(shelf)).toEqual([]);
    const next = save(shelf, 'c');
    await settled();
    writes[1]?.end();
    await next;
    expect(keysOf(shelf)).toEqual(['c']);
  });

  it('refused by their own work leave nothing behind', async () => {
    const { keeper, writes } = aKeeper();
    const shelf = new Shelf(keeper);
    const refused = shelf.change((draft) => {
      draft.write('drafts', { values: { a: 'half' } });
      throw new StorageError('invalid', 'no');
    });
    await expect(refused).rejects.toMatchObject({ code: 'invalid' });
    await settled();
    expect([writes.length, keysOf(shelf)]).toEqual([0, []]);
  });

  it('are waited for when the record closes, and refused afterwards', async () => {
    const { keeper, writes } = aKeeper();
    const shelf = new Shelf(keeper);
    let done = false;
    const last = save(shelf, 'a').then(() => (done = true));
    await settled();
    const closing = shelf.close();
    writes[0]?.end();
    await closing;
    expect(done).toBe(true);
    await last;
    await expect(save(shelf, 'b')).rejects.toMatchObject({ code: 'locked' });
  });
});
