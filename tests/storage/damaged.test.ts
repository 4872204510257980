import { cp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { isHttpError } from '@sveltejs/kit';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { sayingDamage } from '../../src/lib/server/say-damage';
import { openStore, type Store } from '../../src/lib/server/storage';
import { backupPieces } from '../../src/lib/server/backup';
import { readText } from './backup-text';
import { aCase, aReflection, aWholeRecord, now } from '../made-up/stored';
import { asked, idOf, modules, type Answers } from './rooms';
import { freshFolder, openIn } from './stores';

vi.spyOn(console, 'error').mockImplementation(() => {});

const pages = Object.keys(modules).filter((file) => file.includes('+page.server') && !file.includes('['));

const rooms: [id: string, load: Answers][] = [];
// All rooms of the program are read once: that alone takes longer than every question to them.
beforeAll(async () => {
  for (const file of pages) {
    const { load } = (await modules[file]?.()) ?? {};
    if (load) rooms.push([idOf(file), load]);
  }
}, 300_000);

/** The rooms that a damaged file closes; any error but "cannot be read" is thrown. */
async function closedRooms(store: Store): Promise<string[]> {
  const closed: string[] = [];
  for (const [id, load] of rooms)
    try {
      await asked(sayingDamage(store), load, id, {}, '');
    } catch (why) {
      if (!isHttpError(why, 503)) throw new Error(`${id}: ${String(why)}`, { cause: why });
      expect(why.body.damaged).toBe(true);
      expect(why.body.message).toMatch(/\.json (cannot be read|is missing)/);
      closed.push(id);
    }
  return closed;
}

/** Files without which every room opens: what they hold is said to be missing where it would stand. */
const CLOSE_NOTHING = ['drafts', 'ledger', 'imports/import-1'];
/** Files that half of the rooms do without, at the least. The others hold what nearly every number is made of. */
const CLOSE_FEW = ['results', 'reflections/1', 'reference/reference-1'];

describe('one damaged file', () => {
  it('closes no room that does without it, and every room says which file it is', async () => {
    const origin = await freshFolder();
    const store = await openStore(origin, now);
    await store.restoreEverything(aWholeRecord());
    await store.saveDraft('reflection-new', 'half written');
    await store.holdImport({ heldAt: now, fileName: 'cells', text: 'case_id,step\n', choices: {} });
    await store.close();
    const { documents } = JSON.parse(await readFile(join(origin, 'contents.json'), 'utf8')) as { documents: string[] };
    for (const name of documents) {
      const folder = join(await freshFolder(), 'data');
      await cp(origin, folder, { recursive: true });
      await rm(join(folder, 'owner.lock'), { force: true });
      if (name === 'lists') await rm(join(folder, 'lists.json'));
      else await writeFile(join(folder, `${name}.json`), '{"schemaVersion":1,"next"');
      const damaged = await openIn(folder);
      const closed = await closedRooms(damaged);
      const most = CLOSE_NOTHING.includes(name) ? 0 : CLOSE_FEW.includes(name) ? rooms.length / 2 : rooms.length;
      expect(closed.length, `${name} closes ${closed.join(' ')}`).toBeLessThanOrEqual(most);
      for (const open of ['/settings/damaged', '/method']) expect(closed).not.toContain(open);
      const { everything, missing } = await damaged.readableEverything();
      const text = [...backupPieces(everything, missing)].join('');
      const read = await readText(text, 64 * 1024);
      if ('problem' in read) throw new Error(`${name}: ${read.problem}`);
      expect(read.missing).toEqual(missing);
      expect(missing.some((words) => words.startsWith(`${name}: `))).toBe(!CLOSE_NOTHING.includes(name));
      const other = await openIn(await freshFolder());
      await other.restoreEverything(read.everything);
    }
  }, 180_000);
});

describe('a file that cannot be read', () => {
  const broken = async (...names: string[]) => {
    const folder = await freshFolder();
    const store = await openStore(folder, now);
    await store.restoreEverything(aWholeRecord());
    await store.close();
    for (const name of names) await writeFile(join(folder, `${name}.json`), 'torn');
    return { folder, store: await openIn(folder) };
  };

  it.each(['profile', 'lists', 'cases/1', 'goals', 'results', 'reflections/1', 'reference/reference-1'])(
    'comes back from an export, at once and after the next start: %s',
    async (name) => {
      const { folder, store } = await broken(name);
      expect((await store.damaged()).map((each) => each.name)).toEqual([name]);
      await store.replaceDamaged(name, aWholeRecord());
      expect(await store.damaged()).toEqual([]);
      expect(await store.everything()).toEqual(aWholeRecord());
      await store.close();
      const again = await openIn(folder);
      expect(await again.everything()).toEqual(aWholeRecord());
    },
  );

  it.each(['profile', 'lists', 'cases/1', 'goals', 'results', 'reflections/1', 'reference/reference-1'])(
    'is gone on without; what is left is whole, and no number is given twice: %s',
    async (name) => {
      const { store } = await broken(name);
      await store.replaceDamaged(name, null);
      const left = await store.everything();
      const { missing } = await store.readableEverything();
      const read = await readText([...backupPieces(left, missing)].join(''));
      expect(read).toEqual({ everything: left, missing });
      expect(missing).toEqual(name === 'goals' ? ['goals: those of 1 stored result'] : []);
      const { id } = await store.recordCase(aCase('NEW'));
      expect(['case-1', 'case-2']).not.toContain(id);
      expect((await store.saveReflection(aReflection([id]))).id).not.toBe('reflection-1');
      if (name === 'lists') expect(left.lists).toMatchObject([{ id: 'list-1', operated: null }]);
      await expect(store.replaceDamaged(name, aWholeRecord())).resolves.toBeUndefined(); // the other window: nothing
      expect((await store.everything()).cases.some(({ code }) => code === 'NEW')).toBe(true);
    },
  );

  it.each([
    ['lists', 'cases/1'],
    ['goals', 'reflections/1'],
  ])('is put right after those that name its numbers: %s after %s', async (name, first) => {
    const { store } = await broken(name, first);
    await expect(store.replaceDamaged(name, null)).rejects.toThrow(`Put ${first}.json right first`);
    await expect(store.replaceDamaged(name, aWholeRecord())).rejects.toThrow('Nothing was changed.');
    expect((await store.damaged()).map((each) => each.name).sort()).toEqual([name, first].sort());
    await store.replaceDamaged(first, aWholeRecord());
    await store.replaceDamaged(name, null);
    expect(await store.damaged()).toEqual([]);
    if (name === 'lists') expect((await store.everything()).lists.map(({ id }) => id)).toEqual(['list-1']);
  });

  it('keeps a copy of what could not be read beside what takes its place', async () => {
    const { folder, store } = await broken('cases/1');
    await store.replaceDamaged('cases/1', null);
    expect((await readdir(join(folder, 'cases'))).filter((file) => file.includes('unreadable'))).toHaveLength(1);
  });
});
