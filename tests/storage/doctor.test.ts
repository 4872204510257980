import { chmod, lstat, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { run } from '../../src/run/doctor';
import { openStore } from '../../src/lib/server/storage';
import { writeJournal } from '../../src/lib/server/storage/disk/journal';
import { schemaVersion } from '../../src/lib/server/storage/migrations';
import { aCase, aReflection, aWholeRecord, now } from '../made-up/stored';
import { freshFolder } from './stores';

const undo: string[] = [];
afterEach(async () => {
  for (const path of undo.splice(0)) await rm(path, { recursive: true, force: true });
});

/** A record with a backup of nearly each of its files, closed. */
async function aFolder(): Promise<string> {
  const folder = join(await freshFolder(), 'data');
  const store = await openStore(folder, now);
  await store.restoreEverything(aWholeRecord());
  await store.recordCase(aCase('NEW', { sequence: 9 }));
  await store.changeProfile((profile) => ({ ...profile, largeType: !profile.largeType }));
  await store.saveReflection(aReflection([]));
  await store.close();
  return folder;
}

async function asked(...args: string[]): Promise<{ code: number; said: string }> {
  let said = '';
  const write = (text: string) => void (said += text);
  const code = await run(args, { userFolder: '/', out: write, err: write });
  const copy = /as it was is in (\S+):/.exec(said)?.[1];
  if (copy) undo.push(copy);
  return { code, said };
}

/** Everything about a folder that a reader could have changed. */
async function stateOf(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return Promise.all(
    entries.map(async (entry) => {
      const path = join(entry.parentPath, entry.name);
      const { mode, mtimeMs, ino, nlink } = await lstat(path);
      return [path, mode, mtimeMs, ino, nlink, entry.isFile() ? await readFile(path, 'utf8') : ''].join(' ');
    }),
  );
}

const text = (folder: string, name: string) => readFile(join(folder, name), 'utf8');

const FAULTS: [what: string, make: (folder: string) => Promise<unknown>, said: RegExp, wrong: boolean][] = [
  ['nothing', async () => {}, /Nothing is wrong/, false],
  [
    'a torn file',
    (folder) => writeFile(join(folder, 'cases', '1.json'), '{"sch'),
    /cases\/1\.json cannot be read.*\n.*newest good backup stood until .*\n.*--mend/,
    true,
  ],
  [
    'a missing file',
    (folder) => rm(join(folder, 'profile.json')),
    /profile\.json is missing\. It holds the settings/,
    true,
  ],
  [
    'a file without a backup',
    (folder) => writeFile(join(folder, 'goals.json'), ''),
    /goals\.json.*\n.*no backup of it/,
    true,
  ],
  [
    'a file of a later version',
    (folder) => writeFile(join(folder, 'lists.json'), `{"schemaVersion":${schemaVersion + 1}}`),
    /lists\.json was written by a later version/,
    true,
  ],
  ['lost contents', (folder) => rm(join(folder, 'contents.json')), /contents\.json is missing/, true],
  [
    'a stray file',
    async (folder) => writeFile(join(folder, 'cases', '7.json'), await text(folder, 'cases/1.json')),
    /cases\/7\.json lies in the folder/,
    false,
  ],
  [
    'a code given twice',
    async (folder) =>
      writeFile(
        join(folder, 'cases', '1.json'),
        (await text(folder, 'cases/1.json')).replace('"NEW"', '"A1"').replace(/"code":"[^"]*"/, '"code":"A1"'),
      ),
    /does not fit the rest: the code A1 stands there twice/,
    true,
  ],
  [
    'a journal',
    (folder) => writeJournal(folder, new Map([['profile', null]]), schemaVersion),
    /waits in journal\.json/,
    false,
  ],
  [
    'half a journal',
    (folder) => writeFile(join(folder, 'journal.json'), '{"schema'),
    /broken off before it was stored/,
    false,
  ],
  [
    'what a crash left',
    (folder) => writeFile(join(folder, '.profile.json.making-01234567'), ''),
    /1 unfinished file/,
    false,
  ],
  [
    'a copy put aside',
    (folder) => writeFile(join(folder, 'lists.json.unreadable-2026-11-01T00-00-00-000Z'), ''),
    /is a copy of what could not be read/,
    false,
  ],
  [
    'a lock that cannot be read',
    (folder) => writeFile(join(folder, 'owner.lock'), '{'),
    /owner\.lock cannot be read/,
    true,
  ],
  ['a folder open to others', (folder) => chmod(folder, 0o755), /Other accounts/, true],
  [
    'a torn backup',
    async (folder) => {
      const [backup] = await readdir(join(folder, 'backups', 'profile'));
      await writeFile(join(folder, 'backups', 'profile', backup ?? ''), '{');
    },
    /1 of \d+ backups cannot be read/,
    false,
  ],
];

describe('the doctor', () => {
  it.each(FAULTS)('finds %s, and changes nothing', async (_, make, said, wrong) => {
    const folder = await aFolder();
    await make(folder);
    const before = await stateOf(folder);
    const answer = await asked(folder);
    expect(answer.said).toMatch(said);
    expect(answer.code).toBe(wrong ? 1 : 0);
    expect(await stateOf(folder)).toEqual(before);
  });

  it('mends what it can, after a copy of the folder, and says what it cannot', async () => {
    const folder = await aFolder();
    await writeFile(join(folder, 'cases', '1.json'), 'torn');
    await writeFile(join(folder, 'goals.json'), 'torn too');
    await chmod(folder, 0o755);
    const torn = await stateOf(folder);
    const { code, said } = await asked(folder, '--mend');
    expect(code).toBe(1);
    expect(said).toContain('cases/1.json was brought back from its newest good backup.');
    expect(said).toMatch(/Now:[^]*1 thing wrong:\n- goals\.json/);
    expect((await lstat(folder)).mode & 0o777).toBe(0o700);
    const copy = /as it was is in (\S+):/.exec(said)?.[1] ?? '';
    expect((await stateOf(copy)).length).toBe(torn.length);
    expect(await text(copy, 'cases/1.json')).toBe('torn');
    const store = await openStore(folder, now);
    expect((await store.cases()).length).toBe(aWholeRecord().cases.length); // the newest backup is from before NEW
    await store.close();
  });

  it('lists anew what stands in a folder that has lost its contents', async () => {
    const folder = await aFolder();
    await rm(join(folder, 'contents.json'));
    expect((await asked(folder, '--mend')).said).toMatch(/Now:[^]*Nothing is wrong/);
    const store = await openStore(folder, now);
    expect((await store.cases()).map(({ code }) => code)).toContain('NEW');
    await store.close();
  });

  it('leaves a folder alone that a server has, and one that is not there', async () => {
    const folder = await aFolder();
    await rm(join(folder, 'profile.json'));
    const store = await openStore(folder, now);
    const { code, said } = await asked(folder, '--mend');
    expect([code, said]).toEqual([1, expect.stringMatching(/in use by process[^]*Nothing was mended/)]);
    await store.close();
    expect(await asked(join(folder, 'none'))).toMatchObject({
      code: 0,
      said: expect.stringContaining('nothing has been stored'),
    });
    expect((await asked('--fix')).code).toBe(2);
  });
});
