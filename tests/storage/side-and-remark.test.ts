import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { migrations } from '../../src/lib/server/storage/migrations';
import { openMemoryStore } from '../../src/lib/server/storage';
import { openDiskStore } from '../../src/lib/server/storage/open-disk';
import { backupText, readText } from './backup-text';
import { asBefore4 } from './earlier/names';
import { aWholeRecord, later, now } from '../made-up/stored';
import { freshFolder } from './stores';

/** The version before a case could carry its side and a remark. */
const BEFORE = 9;
const kept = { side: 'left' as const, remark: { stepId: 'capsulorhexis', text: 'Iris came forward twice' } };

/** A folder with the cases of a whole record, as a program of that version left it. */
async function folderOf(version: number) {
  const folder = await freshFolder();
  const { cases, lists } = aWholeRecord();
  await mkdir(join(folder, 'cases'));
  const put = (name: string, document: object) =>
    writeFile(join(folder, `${name}.json`), JSON.stringify({ schemaVersion: version, ...document }));
  const next = cases.length + 1;
  await put('cases/1', { next, records: version < 4 ? asBefore4(cases) : cases });
  await put('lists', { next: lists.length + 1, records: lists });
  await put('contents', { documents: ['cases/1', 'lists'] });
  return { folder, cases };
}

describe('which eye, and a remark', () => {
  it.each(Array.from({ length: BEFORE }, (_, index) => index + 1))(
    'a case of version %i is read without them, takes them, and keeps them',
    async (version) => {
      const { folder, cases } = await folderOf(version);
      const store = await openDiskStore(folder, now);
      const [first] = await store.cases();
      if (!first) throw new Error('no case was read');
      expect(await store.cases()).toHaveLength(cases.length);
      expect(Object.keys(first).filter((key) => key === 'side' || key === 'remark')).toEqual([]);
      await store.updateCase({ ...first, ...kept }, 'Remark written', later);
      await store.close();
      const again = await openDiskStore(folder, now);
      expect(await again.caseById(first.id)).toMatchObject(kept);
      await again.close();
    },
  );

  it('a program of the version before refuses such a case as newer, and takes it for no damage', async () => {
    const { folder } = await folderOf(BEFORE);
    const store = await openDiskStore(folder, now);
    const [first] = await store.cases();
    if (!first) throw new Error('no case was read');
    await store.updateCase({ ...first, ...kept }, 'Remark written', later);
    await store.close();
    const versions = { schemaVersion: BEFORE, migrations: migrations.slice(0, BEFORE - 1) };
    const read = async () => (await openDiskStore(folder, now, versions)).cases();
    await expect(read()).rejects.toMatchObject({ code: 'newer' });
  });

  it('go into a full backup and come back from it', async () => {
    const record = aWholeRecord();
    const everything = { ...record, cases: record.cases.map((one) => ({ ...one, ...kept })) };
    const read = await readText(backupText(everything));
    if ('problem' in read) throw new Error(read.problem);
    const store = await openMemoryStore();
    await store.restoreEverything(read.everything);
    expect((await store.everything()).cases).toEqual(everything.cases);
  });
});
