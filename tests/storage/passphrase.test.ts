import { stat, writeFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';
import { Access } from '../../src/lib/server/access/access';
import { COST, keyFor, passphraseOf, passphrasePath, readPassphrase } from '../../src/lib/server/access/passphrase';
import { freshFolder } from './stores';

/** As cheap as it gets: what the cost is, is asked once below. */
const CHEAP = 2 ** 4;
const ONE = 'a lamp in the window';
const TWO = 'another lamp elsewhere';
const set = (text: string, old = '') => ({ old, text, again: text });

describe('a passphrase', () => {
  it('opens the same data key after it was changed, and the old one opens nothing', async () => {
    const folder = await freshFolder();
    const access = await Access.at(folder, 'loopback', CHEAP);
    await access.set(set(ONE), 'a', 0);
    const first = await readPassphrase(folder);
    const before = first && (await keyFor(first, ONE));
    expect(await access.set(set(TWO, ONE), 'a', 0)).toMatchObject({ refused: null });
    const file = await readPassphrase(folder);
    if (!file || !before) throw new Error('no passphrase was set');
    expect(await keyFor(file, TWO)).toEqual(before);
    expect(await keyFor(file, ONE)).toBeNull();
    expect(before.key).toHaveLength(32);
  });

  it('is kept nowhere, and its file is for its owner alone', async () => {
    const folder = await freshFolder();
    const file = await passphraseOf(ONE, null, CHEAP);
    expect(JSON.stringify(file)).not.toMatch(/lamp|window/);
    await (await Access.at(folder, 'loopback', CHEAP)).set(set(ONE), 'a', 0);
    expect((await stat(passphrasePath(folder))).mode & 0o077).toBe(0);
  });

  it('has a salt of its own each time, and the letters of a keyboard mean the same however they are composed', async () => {
    const [one, two] = [
      await passphraseOf('dämmerung am see', null, CHEAP),
      await passphraseOf('dämmerung am see', null, CHEAP),
    ];
    expect([one.kdf.salt === two.kdf.salt, one.check === two.check]).toEqual([false, false]);
    expect(await keyFor(one, 'dämmerung am see'.normalize('NFD'))).not.toBeNull();
  });

  it('costs what is recommended', async () => {
    // OWASP, Password Storage Cheat Sheet: scrypt with N = 2^17, r = 8, p = 1 (recalled; not read again here).
    const file = await passphraseOf(ONE);
    expect([file.kdf.N, file.kdf.r, file.kdf.p]).toEqual([131072, 8, 1]);
    expect(COST).toBe(131072);
    expect(await keyFor(file, ONE)).not.toBeNull();
    expect(await keyFor(file, `${ONE} `)).toBeNull();
  });
});

describe('who is let in', () => {
  it('everybody on this computer until one is set; beyond it nobody without one, whatever became of the file', async () => {
    const folder = await freshFolder();
    const here = await Access.at(folder, 'loopback', CHEAP);
    expect(here.letsIn(undefined, 0)).toBe(true);
    const beyond = await Access.at(folder, 'http', CHEAP);
    expect(beyond.letsIn(undefined, 0)).toBe(false);
    expect(await beyond.signIn('', 'a', 0)).toMatchObject({ refused: { message: 'This is not the passphrase.' } });
    const done = await here.set(set(ONE), 'a', 0);
    expect(here.letsIn(undefined, 0)).toBe(false);
    expect('token' in done && here.letsIn(done.token, 0)).toBe(true);
  });

  it('who knows it, from then on; a change signs everybody else out', async () => {
    const access = await Access.at(await freshFolder(), 'loopback', CHEAP);
    await access.set(set(ONE), 'a', 0);
    const signed = await access.signIn(ONE, 'b', 1);
    if (signed.refused) throw new Error(signed.refused.message);
    expect(access.letsIn(signed.token, 2)).toBe(true);
    expect(await access.set(set(TWO, 'wrong wrong wrong'), 'b', 3)).toMatchObject({ refused: { field: 'old' } });
    expect(access.letsIn(signed.token, 4)).toBe(true);
    const changed = await access.set(set(TWO, ONE), 'b', 5);
    expect([access.letsIn(signed.token, 6), 'token' in changed && access.letsIn(changed.token, 6)]).toEqual([
      false,
      true,
    ]);
  });

  it('not who guesses: the fifth wrong try waits, and so does the right one until then', async () => {
    const access = await Access.at(await freshFolder(), 'loopback', CHEAP);
    await access.set(set(ONE), 'a', 0);
    for (let wrong = 0; wrong < 4; wrong += 1)
      expect(await access.signIn('not this one', 'b', 10)).toMatchObject({
        refused: { message: 'This is not the passphrase.' },
      });
    expect(await access.signIn(ONE, 'b', 10)).toMatchObject({ refused: { message: expect.stringContaining('Wait') } });
    expect(await access.signIn(ONE, 'c', 10)).toMatchObject({ refused: null });
    expect(await access.signIn(ONE, 'b', 20_000)).toMatchObject({ refused: null });
  });

  it('a passphrase too short, too long or typed differently is refused at its field', async () => {
    const access = await Access.at(await freshFolder(), 'loopback', CHEAP);
    expect(await access.set(set('short'), 'a', 0)).toMatchObject({ refused: { field: 'passphrase' } });
    expect(await access.set(set('x'.repeat(300)), 'a', 0)).toMatchObject({ refused: { field: 'passphrase' } });
    expect(await access.set({ ...set(ONE), again: TWO }, 'a', 0)).toMatchObject({ refused: { field: 'again' } });
    expect(access.asks).toBe(false);
  });

  it('it is removed by who knows it, and never while other computers can ask', async () => {
    const folder = await freshFolder();
    const access = await Access.at(folder, 'loopback', CHEAP);
    await access.set(set(ONE), 'a', 0);
    const beyond = await Access.at(folder, 'https', CHEAP);
    expect(await beyond.remove(ONE, 'a', 0)).toMatchObject({ message: expect.stringContaining('stays') });
    expect(await access.remove(TWO, 'a', 0)).toMatchObject({ field: 'old' });
    expect(await readPassphrase(folder)).not.toBeNull();
    expect(await access.remove(ONE, 'a', 0)).toBeNull();
    expect([await readPassphrase(folder), access.letsIn(undefined, 0)]).toEqual([null, true]);
  });

  it('of two windows at once, what the other decided meanwhile is never undone', async () => {
    const folder = await freshFolder();
    const access = await Access.at(folder, 'loopback', CHEAP);
    await access.set(set(ONE), 'a', 0);
    const [turned, removed] = await Promise.all([access.turn('sealing', ONE, 'a', 0), access.remove(ONE, 'a', 0)]);
    expect([turned.refused, removed?.message]).toEqual([null, expect.stringContaining('The folder is encrypted')]);
    expect((await readPassphrase(folder))?.files).toBe('sealing');

    const other = await Access.at(folder, 'loopback', CHEAP);
    const [changed, opening] = await Promise.all([
      access.set(set(TWO, ONE), 'a', 0),
      other.turn('opening', ONE, 'a', 0).then(async (answer) => ({ answer, file: await readPassphrase(folder) })),
    ]);
    expect(changed.refused).toBeNull();
    // Either came first: the change of the passphrase keeps what was decided about the files, or is asked for again.
    if (opening.answer.refused) expect(opening.answer.refused.message).toContain('changed meanwhile');
    else expect((await readPassphrase(folder))?.files).toBe('opening');
    expect((await (await Access.at(folder, 'loopback', CHEAP)).signIn(TWO, 'b', 0)).refused).toBeNull();
  });

  it('a file that cannot be read is never taken for none', async () => {
    const folder = await freshFolder();
    for (const broken of ['', '{}', '{"version":2}', 'null']) {
      await writeFile(passphrasePath(folder), broken);
      await expect(Access.at(folder, 'loopback', CHEAP)).rejects.toMatchObject({ code: 'unreadable' });
    }
  });
});
