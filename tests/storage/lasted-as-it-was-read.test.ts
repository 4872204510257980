import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { ReadLasting } from '../../src/lib/model';
import { openMemoryStore } from '../../src/lib/server/storage';
import { migrations } from '../../src/lib/server/storage/migrations';
import { openDiskStore } from '../../src/lib/server/storage/open-disk';
import { asBefore11, asBefore4, readFromBefore11, resultBefore4 } from './earlier/names';
import { backupText, readText } from './backup-text';
import { aLasting, aWholeRecord, later, now } from '../made-up/stored';
import { freshFolder } from './stores';

/** The version before a result carried whether it lasted. */
const BEFORE = 6;

const lasted: ReadLasting = { at: later, lasting: aLasting(1, 'lasted') };

/** A folder with one goal and its result, as a program of that version left it. */
async function folderOf(version: number) {
  const folder = await freshFolder();
  const { goals, results } = aWholeRecord();
  const told = results.map(asBefore11);
  const put = (name: string, document: object) =>
    writeFile(join(folder, `${name}.json`), JSON.stringify({ schemaVersion: version, ...document }));
  await put('goals', { next: 2, records: version < 4 ? asBefore4(goals) : goals });
  await put('results', { next: 2, records: version < 4 ? told.map(resultBefore4) : told });
  await put('contents', { documents: ['goals', 'results'] });
  return { folder, results: results.map(readFromBefore11) };
}

describe('whether it lasted, kept as it was read', () => {
  it.each(Array.from({ length: BEFORE }, (_, index) => index + 1))(
    'a result of version %i is read without it, takes it, and keeps it',
    async (version) => {
      const { folder, results } = await folderOf(version);
      const store = await openDiskStore(folder, now);
      expect(await store.results()).toEqual(results);
      expect(Object.keys((await store.results())[0] ?? {})).not.toContain('lasted');
      await store.storeLasted('result-1', [lasted]);
      await store.close();
      const again = await openDiskStore(folder, now);
      expect(await again.results()).toEqual([{ ...results[0], lasted: [lasted] }]);
      await again.close();
    },
  );

  it('a program of the version before refuses such a result as newer, and takes it for no damage', async () => {
    const { folder } = await folderOf(BEFORE);
    const store = await openDiskStore(folder, now);
    await store.storeLasted('result-1', [lasted]);
    await store.close();
    const old = await openDiskStore(folder, now, {
      schemaVersion: BEFORE,
      migrations: migrations.slice(0, BEFORE - 1),
    }).catch((why: unknown) => why);
    const why =
      old instanceof Error
        ? old
        : await (old as { results(): Promise<unknown> }).results().catch((error: unknown) => error);
    expect(why).toMatchObject({ code: 'newer' });
  });

  it('goes into a full backup and comes back from it; a backup of version 3 has none, and none is made up', async () => {
    const record = aWholeRecord();
    const everything = { ...record, results: record.results.map((each) => ({ ...each, lasted: [lasted] })) };
    const read = await readText(backupText(everything));
    if ('problem' in read) throw new Error(read.problem);
    const store = await openMemoryStore();
    await store.restoreEverything(read.everything);
    expect((await store.everything()).results).toEqual(everything.results);
    const old = await readText(await readFile(new URL('./earlier/backup-3.json', import.meta.url), 'utf8'));
    if ('problem' in old) throw new Error(old.problem);
    expect(old.everything.results.map((each) => each.lasted)).toEqual(old.everything.results.map(() => undefined));
    expect(old.everything.results.length).toBeGreaterThan(0);
  });
});
