import { cp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { run } from '../../src/run/doctor';
import { isSealed } from '../../src/lib/server/storage/disk/sealed';
import { opened, SECRET, signedIn, turned, withSecrets, WORDS } from './sealed-record';

const undo: string[] = [];
afterEach(async () => {
  for (const path of undo.splice(0)) await rm(path, { recursive: true, force: true });
});

/** The doctor asked about a folder, by somebody who types this passphrase where it is asked for. */
async function asked(passphrase: string | null, ...args: string[]): Promise<{ code: number; said: string }> {
  let said = '';
  const write = (text: string) => void (said += text);
  const secret = async () => passphrase ?? '';
  const all = passphrase === null ? args : [...args, '--passphrase'];
  const code = await run(all, { userFolder: '/', out: write, err: write, secret });
  const copy = /as it was is in (\S+):/.exec(said)?.[1];
  if (copy) undo.push(copy);
  expect(said).not.toContain(SECRET);
  return { code, said };
}

async function closed(): Promise<string> {
  const { folder, record } = await withSecrets();
  await turned(record, 'sealing');
  await record.close();
  return folder;
}
const bytesOf = async (folder: string) =>
  Promise.all(
    (await readdir(folder, { recursive: true, withFileTypes: true }))
      .filter((entry) => entry.isFile())
      .map(async (entry) => [entry.name, (await readFile(join(entry.parentPath, entry.name))).toString('base64')]),
  );

describe('the doctor, asked about an encrypted folder', () => {
  it('says without the passphrase what it could not look at, and changes nothing', async () => {
    const folder = await closed();
    const before = await bytesOf(folder);
    const { code, said } = await asked(null, folder);
    expect([code, said]).toEqual([0, expect.stringContaining('Nothing wrong was found from outside.')]);
    expect(said).toContain('Without its passphrase only names, sizes and owners');
    expect(said).toContain('A lost passphrase cannot be brought back by anybody');
    expect(said).not.toContain('can be read, with');
    expect((await asked(null, folder, '--mend')).said).toContain('Nothing was mended: the folder is encrypted');
    expect(await bytesOf(folder)).toEqual(before);
  });

  it('tells from outside a file of another record and one cut short', async () => {
    const folder = await closed();
    await cp(join(await closed(), 'drafts.json'), join(folder, 'drafts.json'));
    await writeFile(join(folder, 'contents.json'), (await readFile(join(folder, 'contents.json'))).subarray(0, 20));
    const { code, said } = await asked(null, folder);
    expect(code).toBe(1);
    expect(said).toContain('drafts.json is encrypted with the key of another record');
    expect(said).toContain('contents.json is encrypted and cut short');
  });

  it('reads all of it with the passphrase, and nothing with another', async () => {
    const folder = await closed();
    const before = await bytesOf(folder);
    expect(await asked(WORDS, folder)).toEqual({
      code: 0,
      said: expect.stringMatching(/with 1 case\.\nNothing is wrong/),
    });
    expect(await asked('a lamp in the windov', folder)).toEqual({
      code: 1,
      said: expect.stringContaining('This is not the passphrase. Nothing was looked at.'),
    });
    expect(await bytesOf(folder)).toEqual(before);
  });

  it('mends with the passphrase what it can, and leaves no plain file', async () => {
    const folder = await closed();
    await writeFile(join(folder, 'cases', '1.json'), (await readFile(join(folder, 'cases', '1.json'))).subarray(0, -1));
    const { said } = await asked(WORDS, folder, '--mend');
    expect(said).toMatch(/cases\/1\.json cannot be read \(it is encrypted and was changed/);
    expect(said).toMatch(/cases\/1\.json was brought back[^]*Now:[^]*Nothing is wrong/);
    for (const name of ['contents.json', 'cases/1.json'])
      expect(isSealed(await readFile(join(folder, name))), name).toBe(true);
    const again = await opened(folder);
    expect((await (await signedIn(again)).cases()).map(({ code }) => code)).toEqual([SECRET]);
    await again.close();
  });

  it('says what it means that the passphrase file is gone, and does not list the folder anew', async () => {
    const folder = await closed();
    await rm(join(folder, 'passphrase.json'));
    const before = await bytesOf(folder);
    const { code, said } = await asked(null, folder, '--mend');
    expect([code, said]).toEqual([1, expect.stringContaining('passphrase.json does not say so')]);
    expect(await bytesOf(folder)).toEqual(before);
  });

  it('says that a switch was broken off', async () => {
    const { folder, record } = await withSecrets();
    await record.access.turn('sealing', WORDS, 'a', 0);
    await record.close();
    expect((await asked(null, folder)).said).toContain('whoever signs in next has it finished');
    expect(await asked(WORDS, folder)).toMatchObject({ code: 0, said: expect.stringContaining('with 1 case') });
  });
});
