import { lstat, mkdir, readdir, readFile, rename, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { holdParts } from '../../src/lib/server/held-import';
import { withSurgeons } from '../../src/lib/server/held-people';
import { schemaVersion } from '../../src/lib/server/storage/migrations';
import { openStore } from '../../src/lib/server/storage';
import { aBatch, aCase, aNewCase, aReference, aReflection, aWholeRecord, now } from '../made-up/stored';
import { freshFolder, openIn } from './stores';

const read = (...path: string[]) => readFile(join(...path), 'utf8');
const modeOf = async (path: string) => (await stat(path)).mode & 0o777;

/** A folder with two cases and settings, closed again. */
async function aFolder(): Promise<string> {
  const folder = await freshFolder();
  const store = await openStore(folder, now);
  await store.recordCase(aCase('A', { sequence: 1 }));
  await store.recordCase(aCase('B', { sequence: 2 }));
  await store.changeProfile((profile) => ({ ...profile, largeType: true }));
  await store.close();
  return folder;
}

/** Every text in a folder and those below it. */
async function textsIn(folder: string): Promise<string> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
  return (await Promise.all(files.map((file) => read(file)))).join('\n');
}

describe('a file that was looked at and not taken', () => {
  it('is on disk without the names in it, and is gone with its hour, whether anybody opens the record or not', async () => {
    const folder = await freshFolder();
    const store = await openStore(folder, now);
    const text = 'case_id,Patient name,Surgeon,rhexis\nB4,Huber,Dr Anna Kowalska,80\nB5,Mayer,me,70';
    const held = await holdParts(store, [{ fileName: 'times.csv', text }], now);
    const there = await textsIn(folder);
    expect(there).toContain('B5');
    expect(there).not.toMatch(/Huber|Mayer|Kowalska/);
    const asked = [{ id: 'surgeon:surgeon 1', question: 'Who is "surgeon 1"?' }] as never;
    expect(withSurgeons(held?.id ?? '', asked)[0]?.question).toContain('Dr Anna Kowalska');

    await store.dropForgottenImports(new Date(Date.parse(now) + 61 * 60_000).toISOString());
    expect(await textsIn(folder)).not.toContain('B5');
    await holdParts(store, [{ fileName: 'times.csv', text }], now);
    await store.close();
    const later = await openStore(folder, new Date(Date.parse(now) + 61 * 60_000).toISOString());
    expect(await textsIn(folder)).not.toContain('B5');
    await later.close();
  });
});

describe('a record on disk', () => {
  it('is there again after a restart, whole', async () => {
    const folder = await freshFolder();
    const store = await openStore(folder, now);
    await store.restoreEverything(aWholeRecord());
    await store.saveDraft('reflect', 'half a sentence');
    const held = await store.holdImport({ heldAt: now, fileName: 'a.csv', text: 'case_id\n', choices: { a: 'b' } });
    await store.close();
    const again = await openIn(folder);
    expect(await again.everything()).toEqual(aWholeRecord());
    expect(await again.draft('reflect')).toBe('half a sentence');
    expect(await again.heldImport(held.id)).toEqual(held);
  });

  it('is readable by its owner alone, and says its version in every file', async () => {
    const folder = join(await freshFolder(), 'deeper', 'record');
    const store = await openIn(folder);
    await store.restoreEverything(aWholeRecord());
    expect([await modeOf(folder), await modeOf(join(folder, 'cases'))]).toEqual([0o700, 0o700]);
    const files = [
      'contents',
      'profile',
      'lists',
      'goals',
      'results',
      'ledger',
      'cases/1',
      'reflections/1',
      'reference/reference-1',
    ];
    for (const file of files) {
      expect(await modeOf(join(folder, `${file}.json`)), file).toBe(0o600);
      expect(JSON.parse(await read(folder, `${file}.json`)), file).toMatchObject({ schemaVersion });
    }
  });

  it('keeps at most 1,000 records a file, in order of arrival', async () => {
    const folder = await freshFolder();
    const store = await openStore(folder, now);
    const held = await store.holdImport({ heldAt: now, fileName: 'a.csv', text: '', choices: {} });
    const cases = Array.from({ length: 1001 }, (_, index) => aNewCase(`C${index + 1}`, index + 2));
    await store.recordImport(held, aBatch({ cases }), 'hash', now);
    await store.close();
    const countOf = async (n: number) => JSON.parse(await read(folder, 'cases', `${n}.json`)).records.length;
    expect([await countOf(1), await countOf(2)]).toEqual([1000, 1]);
    const again = await openIn(folder);
    expect((await again.cases()).map(({ code }) => code)).toEqual(cases.map(({ code }) => code));
    expect((await again.recordCase(aCase('next', { sequence: 2000 }))).id).toBe('case-1002');
  });

  it('leaves the other files alone when one record changes', async () => {
    const store = await openIn(await aFolder());
    const before = await stat(join(store.place, 'profile.json'));
    const [first] = await store.cases();
    if (!first) throw new Error('no case');
    await store.updateCase(first, 'looked at', now);
    const after = await stat(join(store.place, 'profile.json'));
    expect([after.ino, after.mtimeMs]).toEqual([before.ino, before.mtimeMs]);
  });

  it('sweeps what a crash left in the making, and nothing else', async () => {
    const folder = await aFolder();
    await writeFile(join(folder, 'cases', '.1.json.making-0123abcd'), '{"schemaVersion":1,"nex');
    await writeFile(join(folder, 'my notes.txt'), 'mine');
    await openIn(folder);
    expect(await readdir(join(folder, 'cases'))).toEqual(['1.json']);
    expect(await read(folder, 'my notes.txt')).toBe('mine');
  });

  it('drops on opening an import that waited for more than a day', async () => {
    const folder = await freshFolder();
    const store = await openStore(folder, now);
    await store.holdImport({ heldAt: now, fileName: 'a.csv', text: 'secret', choices: {} });
    await store.close();
    const again = await openStore(folder, '2026-11-26T11:00:00.000Z');
    await again.close();
    expect(await readdir(join(folder, 'imports'))).toEqual([]);
  });
});

describe('a file that is not as it should be', () => {
  const bad: [string, string][] = [
    ['empty', ''],
    ['torn', '{"schemaVersion":1,"next":3,"records":[{"id":"case-1","co'],
    ['full of NUL', '\0'.repeat(4096)],
    ['of another shape', '{"schemaVersion":1,"next":3,"records":[{"id":"case-1"}]}'],
    ['without a version', '{"next":1,"records":[]}'],
    ['null', 'null'],
  ];

  it.each(bad)('%s: a copy is put aside, nothing is written over it, the rest works', async (_, content) => {
    const folder = await aFolder();
    await writeFile(join(folder, 'cases', '1.json'), content);
    const store = await openIn(folder);
    const copy = (await readdir(join(folder, 'cases'))).find((name) => name.startsWith('1.json.unreadable-'));
    expect(copy).toBeDefined();
    const refusal = {
      code: 'unreadable',
      message: expect.stringMatching(new RegExp(`cases/1\\.json cannot.*${copy}`)),
    };
    await expect(store.cases()).rejects.toMatchObject(refusal);
    await expect(store.recordCase(aCase('C'))).rejects.toMatchObject(refusal);
    await expect(store.everything()).rejects.toMatchObject(refusal);
    await store.saveReflection(aReflection([]));
    expect((await store.profile()).largeType).toBe(true);
    expect([await read(folder, 'cases', '1.json'), await read(folder, 'cases', copy ?? '')]).toEqual([
      content,
      content,
    ]);
  });

  it('is copied aside once, however often the server starts', async () => {
    const folder = await aFolder();
    await writeFile(join(folder, 'profile.json'), 'torn');
    for (let start = 0; start < 3; start += 1) await (await openStore(folder, now)).close();
    const copies = (await readdir(folder)).filter((name) => name.includes('unreadable'));
    expect(copies).toHaveLength(1);
  });

  it('with a byte-order mark is read', async () => {
    const folder = await aFolder();
    const path = join(folder, 'cases', '1.json');
    await writeFile(path, `\uFEFF${await read(path)}`);
    const store = await openIn(folder);
    expect(await store.cases()).toHaveLength(2);
  });

  it('from a later version is refused and not touched', async () => {
    const folder = await aFolder();
    const path = join(folder, 'profile.json');
    const newer = (await read(path)).replace(
      `"schemaVersion":${schemaVersion}`,
      `"schemaVersion":${schemaVersion + 1}`,
    );
    await writeFile(path, newer);
    const store = await openIn(folder);
    await expect(store.profile()).rejects.toMatchObject({ code: 'newer' });
    await expect(store.changeProfile(() => aWholeRecord().profile)).rejects.toMatchObject({ code: 'newer' });
    expect(await read(path)).toBe(newer);
    expect(await readdir(folder)).not.toContainEqual(expect.stringContaining('unreadable'));
  });

  it.each(['profile.json', 'cases/1.json'])('missing (%s) is an error, not a new start', async (file) => {
    const folder = await aFolder();
    await rm(join(folder, file));
    const store = await openIn(folder);
    const verb = file.startsWith('cases')
      ? store.recordCase(aCase('C'))
      : store.changeProfile(() => aWholeRecord().profile);
    await expect(verb).rejects.toMatchObject({ code: 'missing', message: expect.stringContaining(file) });
    await expect(lstat(join(folder, file))).rejects.toMatchObject({ code: 'ENOENT' });
  });

  it('missing or unreadable contents keep the folder shut, and it can be opened once they are back', async () => {
    const folder = await aFolder();
    const path = join(folder, 'contents.json');
    await rename(path, `${path}.away`);
    await expect(openStore(folder, now)).rejects.toMatchObject({ code: 'missing' });
    await writeFile(path, '{');
    await expect(openStore(folder, now)).rejects.toMatchObject({ code: 'unreadable' });
    await writeFile(path, `{"schemaVersion":${schemaVersion + 1}}`);
    await expect(openStore(folder, now)).rejects.toMatchObject({ code: 'newer' });
    await rename(`${path}.away`, path);
    expect(await (await openIn(folder)).cases()).toHaveLength(2);
  });

  it('that is a link is refused: writing would cut it', async () => {
    const folder = await aFolder();
    const path = join(folder, 'profile.json');
    const elsewhere = join(await freshFolder(), 'profile.json');
    await rename(path, elsewhere);
    await symlink(elsewhere, path);
    const store = await openIn(folder);
    await expect(store.changeProfile(() => aWholeRecord().profile)).rejects.toMatchObject({ code: 'unreadable' });
    expect((await lstat(path)).isSymbolicLink()).toBe(true);
    expect(JSON.parse(await read(elsewhere)).profile.largeType).toBe(true);
  });
});

describe('a change from outside while the server runs', () => {
  it('is never written over', async () => {
    const store = await openIn(await aFolder());
    const path = join(store.place, 'profile.json');
    const edited = (await read(path)).replace('"largeType":true', '"largeType":false');
    await writeFile(path, edited);
    const profile = await store.profile();
    await expect(store.changeProfile(() => profile)).rejects.toMatchObject({ code: 'changed-outside' });
    expect(await read(path)).toBe(edited);
    expect((await store.recordCase(aCase('C', { sequence: 3 }))).id).toBe('case-3');
  });

  it('keeps a change to several files from being acknowledged', async () => {
    const store = await openIn(await aFolder());
    await writeFile(join(store.place, 'cases', '1.json'), '{"schemaVersion":1,"next":1,"records":[]}');
    await expect(store.eraseCase('case-1', now)).rejects.toMatchObject({ code: 'changed-outside' });
    expect(await readdir(store.place)).not.toContain('journal.json');
    expect([(await store.cases()).length, await store.erasedCount()]).toEqual([2, 0]);
  });

  it('finds a file that stands where a new one would go', async () => {
    const store = await openIn(await aFolder());
    await mkdir(join(store.place, 'reference'), { recursive: true });
    await writeFile(join(store.place, 'reference', 'reference-1.json'), 'not ours');
    await expect(store.saveReference(aReference)).rejects.toMatchObject({ code: 'changed-outside' });
    expect(await read(store.place, 'reference', 'reference-1.json')).toBe('not ours');
  });
});
