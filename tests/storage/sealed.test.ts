import { cp, readdir, readFile, rename, writeFile } from 'node:fs/promises';
import { createCipheriv } from 'node:crypto';
import { join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readPassphrase } from '../../src/lib/server/access/passphrase';
import { asRead, asWritten, isSealed, useKey } from '../../src/lib/server/storage/disk/sealed';
import { schemaVersion } from '../../src/lib/server/storage/migrations';
import { writeJournal } from '../../src/lib/server/storage/disk/journal';
import { peopleIn } from '../../src/lib/server/access/user-accounts';
import { aCase, later } from '../made-up/stored';
import { opened, SECRET, signedIn, storeOf, turned, withSecrets, WORDS } from './sealed-record';
import { freshFolder } from './stores';

/** Every file of a folder by its path in it, but for the lock. */
async function filesOf(folder: string, inside = ''): Promise<Map<string, Buffer>> {
  const found = new Map<string, Buffer>();
  for (const entry of await readdir(join(folder, inside), { withFileTypes: true })) {
    const name = join(inside, entry.name);
    if (entry.isDirectory()) for (const [path, content] of await filesOf(folder, name)) found.set(path, content);
    else if (!name.startsWith('owner.lock')) found.set(name, await readFile(join(folder, name)));
  }
  return found;
}

async function encrypted() {
  const { folder, record } = await withSecrets();
  const plain = await filesOf(folder);
  await turned(record, 'sealing');
  return { folder, record, plain };
}

describe('an encrypted folder', () => {
  it('holds no word of the record: documents, drafts, imports, backups, and what was put aside', async () => {
    const { folder, record, plain } = await encrypted();
    expect(
      [...plain]
        .filter(([, content]) => content.includes(SECRET))
        .map(([name]) => name.split('/')[0])
        .sort(),
    ).toEqual(['backups', 'cases', 'cases', 'drafts.json', 'imports']);
    const files = await filesOf(folder);
    expect([...files.keys()].sort()).toEqual([...plain.keys()].sort());
    for (const [name, content] of files) expect(isSealed(content), name).toBe(name !== 'passphrase.json');
    const store = storeOf(record);
    await store.recordCase(aCase('told-later'));
    await store.saveDraft('more', 'told-later');
    for (const [name, content] of await filesOf(folder)) {
      expect(content.includes(SECRET) || content.includes('told-later'), name).toBe(false);
      expect(isSealed(content), name).toBe(name !== 'passphrase.json');
    }
    await record.close();
  });

  it('opens with the passphrase after a restart, and with nothing else', async () => {
    const { folder, record } = await encrypted();
    await record.close();
    const again = await opened(folder);
    expect(again.store).toBeNull();
    await expect(signedIn(again, 'a lamp in the windov')).rejects.toThrow('This is not the passphrase.');
    expect(again.store).toBeNull();
    const store = await signedIn(again);
    expect((await store.cases()).map(({ code, position }) => [code, position])).toEqual([[SECRET, 7]]);
    expect(await store.draft('kept')).toBe(SECRET);
    const [moment] = await store.backups();
    expect(moment).toBeDefined();
    await again.close();
  });

  it('opens with a new passphrase without a file written anew; removing it waits until the folder is plain', async () => {
    const { folder, record } = await encrypted();
    const before = await filesOf(folder);
    expect(await record.access.remove(WORDS, 'a', 0)).toMatchObject({ message: expect.stringContaining('encrypted') });
    await record.access.set({ old: WORDS, text: 'another lamp elsewhere', again: 'another lamp elsewhere' }, 'a', 0);
    const after = await filesOf(folder);
    for (const [name, content] of before)
      if (name !== 'passphrase.json') expect(after.get(name)?.equals(content), name).toBe(true);
    await record.close();
    const again = await opened(folder);
    expect(await (await signedIn(again, 'another lamp elsewhere')).cases()).toHaveLength(1);
    await again.close();
  });

  it('is plain again, byte for byte, once it is switched off', async () => {
    const { folder, record, plain } = await encrypted();
    await turned(record, 'opening');
    const files = await filesOf(folder);
    for (const [name, content] of plain)
      if (name !== 'passphrase.json') expect(files.get(name)?.equals(content), name).toBe(true);
    expect(files.size).toBe(plain.size);
    expect(await record.access.remove(WORDS, 'a', 0)).toBeNull();
    await record.close();
    expect((await opened(folder)).store).not.toBeNull();
  });

  it('refuses a file changed, cut short, exchanged for another, or of another record, and names it', async () => {
    const { folder, record } = await encrypted();
    await record.close();
    const path = join(folder, 'drafts.json');
    const whole = await readFile(path);
    const other = await encrypted();
    await other.record.close();
    const wrong: Record<string, () => Promise<unknown>> = {
      changed: () =>
        writeFile(
          path,
          whole.map((byte, at) => (at === 40 ? byte ^ 1 : byte)),
        ),
      cut: () => writeFile(path, whole.subarray(0, -3)),
      'no tag': () => writeFile(path, whole.subarray(0, 26)),
      exchanged: () => cp(join(folder, 'contents.json'), path),
      'another record': () => cp(join(other.folder, 'drafts.json'), path),
    };
    for (const [how, spoil] of Object.entries(wrong)) {
      await spoil();
      const again = await opened(folder);
      const store = await signedIn(again);
      expect(
        (await store.damaged()).map(({ name }) => name),
        how,
      ).toEqual(['drafts']);
      expect(await store.cases(), how).toHaveLength(1);
      await again.close();
    }
  });

  it('is the published cipher: what another program encrypts by the same rule is read', () => {
    const key = Buffer.alloc(32, 7);
    useKey('/r', { keyId: '0102030405060708', key }, true);
    const header = Buffer.from('4e543230010102030405060708', 'hex');
    const nonce = Buffer.alloc(12, 9);
    const cipher = createCipheriv('aes-256-gcm', key, nonce).setAAD(Buffer.concat([header, Buffer.from('cases/1')]));
    const sealed = Buffer.concat([header, nonce, cipher.update('text'), cipher.final(), cipher.getAuthTag()]);
    expect(asRead('/r/cases/1.json', sealed).toString()).toBe('text');
    expect(asRead('/r/backups/cases/1/2026.json', sealed).toString()).toBe('text');
    expect(() => asRead('/r/cases/2.json', sealed)).toThrow('exchanged');
    // A tag cut to four bytes, which a reader without a fixed length would accept.
    expect(() => asRead('/r/cases/1.json', sealed.subarray(0, -12))).toThrow();
    const written = () =>
      Buffer.concat([...asWritten('/r/cases/1.json', ['a', 'b'])].map((piece) => Buffer.from(piece)));
    expect(written().equals(written())).toBe(false);
    expect(asRead('/r/cases/1.json', written()).toString()).toBe('ab');
    useKey('/r', null, false);
  });

  it('is encrypted under every name of its folder', async () => {
    const { folder, record } = await encrypted();
    await record.close();
    const again = await opened(relative('.', folder));
    await (await signedIn(again)).saveDraft('later', SECRET);
    await again.close();
    expect(isSealed(await readFile(join(folder, 'drafts.json')))).toBe(true);
  });

  it('of which a change waits in a journal goes on with it, and puts aside one that was spoilt', async () => {
    const { folder, record } = await encrypted();
    await storeOf(record).changeProfile((profile) => ({ ...profile, largeType: true }));
    const profile = asRead(join(folder, 'profile.json'), await readFile(join(folder, 'profile.json'))).toString();
    await writeJournal(
      folder,
      new Map([['profile', profile.replace('"largeType":true', '"largeType":false')]]),
      schemaVersion,
    );
    const path = join(folder, 'journal.json');
    const journal = await readFile(path);
    expect(isSealed(journal)).toBe(true);
    await record.close();
    const again = await opened(folder);
    expect((await (await signedIn(again)).profile()).largeType).toBe(false);
    await again.close();
    await writeFile(path, journal.subarray(0, -3));
    const spoilt = await opened(folder);
    expect((await (await signedIn(spoilt)).profile()).largeType).toBe(false);
    await spoilt.close();
    const aside = (await readdir(folder)).filter((name) => name.startsWith('journal.json.broken-'));
    expect(aside).toHaveLength(1);
  });

  it('puts aside what cannot be read encrypted too, once, though somebody put it there plainly', async () => {
    const { folder, record } = await encrypted();
    await record.close();
    await writeFile(join(folder, 'drafts.json'), `torn ${SECRET}`);
    for (let start = 0; start < 2; start += 1) {
      const again = await opened(folder);
      expect((await (await signedIn(again)).damaged()).map(({ name }) => name)).toEqual(['drafts']);
      await again.close();
    }
    const aside = (await readdir(folder)).filter((name) => name.startsWith('drafts.json.unreadable-'));
    expect(aside).toHaveLength(1);
    expect(isSealed(await readFile(join(folder, aside[0] ?? '')))).toBe(true);
  });

  it('finds a copy that was put aside before it was encrypted', async () => {
    const { folder, record } = await withSecrets();
    await record.close();
    await writeFile(join(folder, 'drafts.json'), 'torn');
    const plain = await opened(folder);
    await turned(plain, 'sealing');
    await plain.close();
    for (let start = 0; start < 2; start += 1) {
      const again = await opened(folder);
      await signedIn(again);
      await again.close();
    }
    expect((await readdir(folder)).filter((name) => name.startsWith('drafts.json.unreadable-'))).toHaveLength(1);
  });

  it('is opened once by two who sign in together', async () => {
    const { folder, record } = await encrypted();
    await record.close();
    const again = await opened(folder);
    const [one, other] = await Promise.all([signedIn(again), signedIn(again)]);
    expect(one).toBe(other);
    await again.close();
  });

  it('goes back to an encrypted backup, and forgets a case everywhere, also where a backup does not open', async () => {
    const { folder, record } = await encrypted();
    const store = storeOf(record);
    const one = await store.recordCase(aCase('ERASED', { sequence: 9 }));
    await store.updateCase({ ...one, position: 3 }, 'Place', later);
    const [moment] = await store.backups();
    await store.restoreBackup(moment?.at ?? '', null, later);
    expect((await store.caseById(one.id))?.position).toBe(one.position);
    const backups = join(folder, 'backups', 'cases', '1');
    const spoilt = join(backups, (await readdir(backups)).sort().at(-1) ?? '');
    await writeFile(spoilt, (await readFile(spoilt)).subarray(0, -1));
    await store.eraseCase(one.id, later);
    const texts = await Promise.all(
      (await readdir(backups)).map(async (name) => asRead(join(backups, name), await readFile(join(backups, name)))),
    );
    expect(texts.length).toBeGreaterThan(0);
    expect(texts.some((text) => text.includes('ERASED') || text.includes(`"${one.id}"`))).toBe(false);
    await record.close();
  });

  it('whose passphrase file is gone opens for nobody, and nothing of it is touched', async () => {
    const { folder, record } = await encrypted();
    await record.close();
    await rename(join(folder, 'passphrase.json'), join(folder, 'elsewhere'));
    const before = await filesOf(folder);
    await expect(opened(folder)).rejects.toMatchObject({ code: 'unreadable' });
    expect([...(await filesOf(folder)).keys()]).toEqual([...before.keys()]);
  });
});

it('reads a passphrase file from before there was a choice: the files are plain', async () => {
  const folder = await freshFolder();
  const record = await opened(folder);
  await record.access.set({ old: '', text: WORDS, again: WORDS }, 'a', 0);
  await record.close();
  const path = join(folder, 'passphrase.json');
  const { files, ...before } = JSON.parse(await readFile(path, 'utf8')) as Record<string, unknown>;
  expect(files).toBe('plain');
  await writeFile(path, JSON.stringify(before));
  expect(await readPassphrase(folder)).toEqual({ ...before, files: 'plain' });
});

it('counts the accounts of people', () => {
  const line = (name: string, id: number, shell: string) => `${name}:x:${id}:${id}::/home/${name}:${shell}`;
  expect(
    peopleIn(
      [
        line('root', 0, '/bin/bash'),
        line('one', 1000, '/bin/bash'),
        line('two', 1001, '/bin/zsh'),
        line('svc', 1002, '/usr/sbin/nologin'),
        line('nobody', 65534, '/usr/sbin/nologin'),
        '',
      ].join('\n'),
    ),
  ).toBe(2);
});
