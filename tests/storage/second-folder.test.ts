import { mkdir, readdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { readText } from './backup-text';
import { aCase, aReflection, aWholeRecord, now } from '../made-up/stored';
import { freshFolder, openIn } from './stores';

beforeEach(() => vi.useFakeTimers({ toFake: ['Date'], now: Date.parse('2026-11-25T10:00:00Z') }));
afterEach(() => vi.useRealTimers());

const aDay = 24 * 3_600_000;

async function copied() {
  const elsewhere = await freshFolder();
  const store = await openIn(await freshFolder());
  await store.restoreEverything(aWholeRecord());
  await store.chooseSecondFolder(elsewhere);
  return { elsewhere, store };
}
const read = async (path: string) => readText(await readFile(path, 'utf8'));

describe('copies in a second folder', () => {
  it('are a full backup of today, there at once, and again when the record is closed', async () => {
    const { elsewhere, store } = await copied();
    expect(await readdir(elsewhere)).toEqual(['next-twenty-copy-2026-11-25.json']);
    const path = join(elsewhere, 'next-twenty-copy-2026-11-25.json');
    expect(await read(path)).toEqual({ everything: aWholeRecord(), missing: [] });
    expect(await store.secondFolder()).toMatchObject({ folder: elsewhere, problem: null, toForget: 0 });
    await store.recordCase(aCase('NEW', { sequence: 9 }));
    await store.close();
    const other = await openIn(await freshFolder());
    const copy = await read(path);
    if ('problem' in copy) throw new Error(copy.problem);
    await other.restoreEverything(copy.everything);
    expect((await other.cases()).map(({ code }) => code)).toContain('NEW');
  });

  it('stay for each day, and go on after the next start', async () => {
    const { elsewhere, store } = await copied();
    await store.close();
    vi.setSystemTime(Date.now() + aDay);
    const again = await openIn(store.place);
    await again.recordCase(aCase('NEXT DAY', { sequence: 9 }));
    await again.close();
    expect(await readdir(elsewhere)).toEqual(['next-twenty-copy-2026-11-25.json', 'next-twenty-copy-2026-11-26.json']);
  });

  it('hold no case that was erased everywhere, also where the folder was away meanwhile', async () => {
    const { elsewhere, store } = await copied();
    const erased = await store.recordCase(aCase('ERASED', { sequence: 9 }));
    await store.saveReflection(aReflection([erased.id]));
    await store.chooseSecondFolder(elsewhere);
    await rename(elsewhere, `${elsewhere}-away`);
    await store.eraseCase(erased.id, now);
    await store.chooseSecondFolder(elsewhere);
    expect(await store.secondFolder()).toMatchObject({
      problem: expect.stringContaining('no longer there'),
      toForget: 1,
    });
    await expect(store.chooseSecondFolder(null)).rejects.toThrow('still in copies');
    await store.close();
    vi.setSystemTime(Date.now() + aDay);
    await rename(`${elsewhere}-away`, elsewhere);
    const again = await openIn(store.place);
    await again.chooseSecondFolder(elsewhere);
    expect(await again.secondFolder()).toMatchObject({ problem: null, toForget: 0 });
    for (const name of await readdir(elsewhere)) {
      const text = await readFile(join(elsewhere, name), 'utf8');
      expect(text.includes('ERASED') || text.includes(`"${erased.id}"`), name).toBe(false);
      expect(await read(join(elsewhere, name))).not.toHaveProperty('problem');
    }
  });

  it('are not written over by a record of which a part cannot be read', async () => {
    const { elsewhere, store } = await copied();
    const path = join(elsewhere, 'next-twenty-copy-2026-11-25.json');
    const before = await readFile(path, 'utf8');
    await store.close();
    await writeFile(join(store.place, 'cases', '1.json'), 'torn');
    const again = await openIn(store.place);
    await again.chooseSecondFolder(elsewhere);
    expect(await again.secondFolder()).toMatchObject({ problem: expect.stringContaining('cannot be read') });
    expect(await readFile(path, 'utf8')).toBe(before);
  });

  it('go to no folder that is not there, is a file, holds the record, or holds copies of another', async () => {
    const { elsewhere } = await copied();
    const store = await openIn(await freshFolder());
    const file = join(await freshFolder(), 'file');
    await writeFile(file, '');
    await mkdir(join(store.place, 'inside'));
    const wrong = [
      'relative',
      '/no/such/folder',
      file,
      join(store.place, 'inside'),
      store.place,
      join(store.place, '..'),
      elsewhere,
    ];
    for (const folder of wrong)
      await expect(store.chooseSecondFolder(folder), folder).rejects.toMatchObject({ code: 'invalid' });
    expect(await store.secondFolder()).toBeNull();
    const copies = await readdir(elsewhere);
    const chosen = await freshFolder();
    await store.chooseSecondFolder(chosen);
    for (const folder of wrong) await expect(store.chooseSecondFolder(folder), folder).rejects.toThrow();
    expect(await store.secondFolder()).toMatchObject({ folder: chosen, problem: null });
    const text = await readFile(join(store.place, 'second-folder.json'), 'utf8');
    expect(JSON.parse(text)).toMatchObject({ folder: chosen });
    await store.chooseSecondFolder(null);
    expect([await store.secondFolder(), await readdir(elsewhere)]).toEqual([null, copies]);
  });
});
