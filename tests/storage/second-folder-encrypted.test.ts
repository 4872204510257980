import { readdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { createDecipheriv } from 'node:crypto';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { keyFor, passphraseSchema } from '../../src/lib/server/access/passphrase';
import { sentBackup } from '../../src/lib/server/restore';
import { keyIn } from '../../src/lib/server/storage/disk/sealed';
import { aCase, later } from '../made-up/stored';
import { readText } from './backup-text';
import { opened, SECRET, signedIn, storeOf, turned, withSecrets, WORDS } from './sealed-record';
import { freshFolder, openIn } from './stores';

// Copies are thinned out by their age.
beforeEach(() => vi.useFakeTimers({ toFake: ['Date'], now: Date.parse('2026-11-25T10:00:00Z') }));
afterEach(() => vi.useRealTimers());

const DAY = /^next-twenty-copy-\d{4}-\d\d-\d\d\.(json|encrypted)$/;

async function copied() {
  const { folder, record, store } = await withSecrets();
  const elsewhere = await freshFolder();
  await store.chooseSecondFolder(elsewhere);
  const before = (await readdir(elsewhere))[0] ?? '';
  await rename(join(elsewhere, before), join(elsewhere, 'next-twenty-copy-2026-01-31.json')); // and another, of today
  await store.chooseSecondFolder(elsewhere);
  return { folder, record, elsewhere };
}
const namesIn = async (folder: string) => (await readdir(folder)).sort();
/** Copying goes on behind: closing waits for it. */
const passed = (record: Awaited<ReturnType<typeof copied>>['record'], folder: string) =>
  storeOf(record).chooseSecondFolder(folder);

function sent(bytes: Buffer, passphrase = ''): Request {
  const form = new FormData();
  form.set('passphrase', passphrase);
  form.set('file', new File([new Uint8Array(bytes)], 'copy.encrypted'));
  return new Request('http://127.0.0.1/', { method: 'POST', body: form });
}

describe('copies of an encrypted record in a second folder', () => {
  it('are encrypted, the earlier ones too, and plain again with the record', async () => {
    const { record, elsewhere } = await copied();
    expect((await namesIn(elsewhere)).every((name) => DAY.exec(name)?.[1] === 'json')).toBe(true);
    await turned(record, 'sealing');
    await passed(record, elsewhere);
    const names = await namesIn(elsewhere);
    expect(names.map((name) => DAY.exec(name)?.[1])).toEqual(['encrypted', 'encrypted']);
    for (const name of names) expect((await readFile(join(elsewhere, name))).includes(SECRET), name).toBe(false);
    expect(await storeOf(record).secondFolder()).toMatchObject({ encrypted: true, otherForm: 0, problem: null });
    await turned(record, 'opening');
    await passed(record, elsewhere);
    const plain = await namesIn(elsewhere);
    expect(plain.map((name) => DAY.exec(name)?.[1])).toEqual(['json', 'json']);
    for (const name of plain)
      expect(await readText(await readFile(join(elsewhere, name)))).toMatchObject({ missing: [] });
    expect(await storeOf(record).secondFolder()).toMatchObject({ encrypted: false, otherForm: 0 });
    await record.close();
  });

  it('are brought to the form of the record once the folder is there again, and said until then', async () => {
    const { folder, record, elsewhere } = await copied();
    await rename(elsewhere, `${elsewhere}-away`);
    await turned(record, 'sealing');
    await passed(record, elsewhere);
    expect((await storeOf(record).secondFolder())?.problem).toContain('no longer there');
    await record.close();
    await rename(`${elsewhere}-away`, elsewhere);
    const again = await opened(folder);
    await signedIn(again);
    await again.close();
    expect((await namesIn(elsewhere)).map((name) => DAY.exec(name)?.[1])).toEqual(['encrypted', 'encrypted']);
  });

  it('come back by themselves, on another computer, with the passphrase and without anything else', async () => {
    const { record, elsewhere, folder } = await copied();
    await turned(record, 'sealing');
    await passed(record, elsewhere);
    const whole = await readFile(join(elsewhere, (await namesIn(elsewhere))[1] ?? ''));
    expect(await sentBackup(sent(whole), folder)).toHaveProperty('everything'); // of the record that is open here
    await record.close();
    const other = await openIn(await freshFolder());
    expect(await sentBackup(sent(whole), other.place)).toEqual({
      problem: expect.stringContaining('This copy is encrypted. Give its passphrase too'),
    });
    expect(await sentBackup(sent(whole, 'a lamp in the windov'), other.place)).toEqual({
      problem: expect.stringContaining('not the passphrase of this copy'),
    });
    const read = await sentBackup(sent(whole, WORDS), other.place);
    if ('problem' in read) throw new Error(read.problem);
    await other.restoreEverything(read.everything);
    expect((await other.cases()).map(({ code, position }) => [code, position])).toEqual([[SECRET, 7]]);
    for (const at of [5, 60, whole.length - 1]) {
      const spoilt = Buffer.from(whole);
      spoilt[at] = (spoilt[at] ?? 0) ^ 1;
      expect(await sentBackup(sent(spoilt, WORDS), other.place), `byte ${at}`).toHaveProperty('problem');
      expect(await sentBackup(sent(whole.subarray(0, at), WORDS), other.place), `cut at ${at}`).toHaveProperty(
        'problem',
      );
    }
  });

  it('are the published cipher, so that another program could open them', async () => {
    const { record, elsewhere } = await copied();
    await turned(record, 'sealing');
    await passed(record, elsewhere);
    await record.close();
    const whole = await readFile(join(elsewhere, (await namesIn(elsewhere))[1] ?? ''));
    expect(whole.subarray(0, 5).toString('hex')).toBe('4e54323002');
    const front = 9 + whole.readUInt32BE(5);
    const head = passphraseSchema.parse(JSON.parse(whole.subarray(9, front).toString()));
    const key = (await keyFor(head, WORDS))?.key ?? Buffer.alloc(32);
    const decipher = createDecipheriv('aes-256-gcm', key, whole.subarray(front, front + 12)).setAAD(
      whole.subarray(0, front),
    );
    const text = Buffer.concat([
      decipher.setAuthTag(whole.subarray(-16)).update(whole.subarray(front + 12, -16)),
      decipher.final(),
    ]);
    expect(JSON.parse(text.toString())).toMatchObject({ cases: [{ code: SECRET }] });
  });

  it('open with the new passphrase after a change, and hold no case that was erased', async () => {
    const { record, elsewhere } = await copied();
    await turned(record, 'sealing');
    const store = storeOf(record);
    const one = await store.recordCase(aCase('ERASED', { sequence: 9 }));
    await passed(record, elsewhere);
    const next = 'another lamp elsewhere';
    await record.access.set({ old: WORDS, text: next, again: next }, 'a', 0);
    await store.eraseCase(one.id, later);
    await passed(record, elsewhere);
    const data = keyIn(record.folder);
    expect(data).not.toBeNull();
    await record.close();
    for (const name of await namesIn(elsewhere)) {
      const whole = await readFile(join(elsewhere, name));
      expect(await sentBackup(sent(whole, WORDS), '/elsewhere'), name).toHaveProperty('problem');
      const read = await sentBackup(sent(whole, next), '/elsewhere');
      if ('problem' in read) throw new Error(read.problem);
      expect(JSON.stringify(read.everything)).not.toContain('ERASED');
    }
  });

  it('leave nothing unfinished behind for long', async () => {
    const { record, elsewhere } = await copied();
    await writeFile(join(elsewhere, '.next-twenty-copy-2026-11-25.json.making-0123abcd'), SECRET);
    await passed(record, elsewhere);
    expect((await namesIn(elsewhere)).every((name) => DAY.test(name))).toBe(true);
    await record.close();
  });
});
