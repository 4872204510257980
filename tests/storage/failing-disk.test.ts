import { mkdir, readdir, readFile, stat, utimes, writeFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openStore } from '../../src/lib/server/storage';
import { aCase, later, now } from '../made-up/stored';
import { freshFolder, openIn } from './stores';

/** A disk that refuses to sync a folder: so many times, once a file of this name has been put there. */
const disk = vi.hoisted(() => ({ after: '', times: 0, armed: false, synced: [] as string[], start: '' }));

vi.mock('node:fs/promises', async (original) => {
  const real = await original<typeof import('node:fs/promises')>();
  const failure = (code: string, path: string) =>
    Object.assign(new Error(`${code}: refused by the test`), { code, path });
  return {
    ...real,
    mkdir: async (...args: Parameters<typeof real.mkdir>) => {
      if (disk.start) throw failure(disk.start, String(args[0]));
      return real.mkdir(...args);
    },
    open: async (...args: Parameters<typeof real.open>) => {
      const handle = await real.open(...args);
      if (args[1] !== 'r') return handle;
      const { sync } = handle;
      handle.sync = async () => {
        if (disk.armed && disk.times > 0) {
          disk.times -= 1;
          throw failure('EIO', String(args[0]));
        }
        disk.synced.push(String(args[0]));
        return sync.apply(handle);
      };
      return handle;
    },
    rename: async (from: string, to: string) => {
      if (disk.after && to.endsWith(disk.after)) disk.armed = true;
      return real.rename(from, to);
    },
  };
});

afterEach(() => Object.assign(disk, { after: '', times: 0, armed: false, synced: [], start: '' }));

async function oneCase() {
  const folder = await freshFolder();
  const store = await openStore(folder, now);
  return { folder, store, stored: await store.recordCase(aCase('A')) };
}

describe('a change whose last sync the disk refuses', () => {
  it('of several files leaves no trace: the next change stays, the refused one never appears', async () => {
    const { folder, store, stored } = await oneCase();
    Object.assign(disk, { after: 'journal.json', times: 1 });
    await expect(store.eraseCase(stored.id, now)).rejects.toMatchObject({ code: 'disk' });
    const edited = await store.updateCase({ ...stored, position: 4 }, 'Place: none → 4', later);
    await store.close();
    const again = await openIn(folder);
    expect([await again.cases(), await again.erasedCount()]).toEqual([[edited], 0]);
  });

  it('of one file leaves no trace', async () => {
    const { folder, store, stored } = await oneCase();
    const text = await readFile(join(folder, 'cases', '1.json'), 'utf8');
    Object.assign(disk, { after: 'cases/1.json', times: 1 });
    const change = store.updateCase({ ...stored, position: 4 }, 'Place: none → 4', later);
    await expect(change).rejects.toMatchObject({
      code: 'disk',
      message: expect.stringContaining('Nothing was changed'),
    });
    expect(await readFile(join(folder, 'cases', '1.json'), 'utf8')).toBe(text);
    expect((await store.updateCase({ ...stored, position: 5 }, 'Place: none → 5', later)).version).toBe(2);
    await store.close();
    const again = await openIn(folder);
    expect((await again.cases())[0]?.position).toBe(5);
  });

  it('and which it then refuses to undo is said to be not known, and nothing is built on it', async () => {
    const { folder, store, stored } = await oneCase();
    Object.assign(disk, { after: 'cases/1.json', times: 2 });
    const change = store.updateCase({ ...stored, position: 4 }, 'Place: none → 4', later);
    await expect(change).rejects.toMatchObject({ code: 'disk', message: expect.stringContaining('not known') });
    await expect(store.saveDraft('reflect', 'x')).rejects.toMatchObject({
      message: expect.stringContaining('not known'),
    });
    await store.close();
    const again = await openIn(folder);
    await again.saveDraft('reflect', 'y');
    expect(await again.cases()).toHaveLength(1);
  });

  it('is kept where its journal was whole: removing a file fails once, and goes on at the next change', async () => {
    const complaint = vi.spyOn(console, 'error').mockImplementation(() => {});
    const { folder, store } = await oneCase();
    const held = await store.holdImport({ heldAt: now, fileName: 'a.csv', text: 'x', choices: {} });
    disk.after = 'journal.json';
    // The journal's own sync is the first after it got its name; the removed file's is the one to fail.
    const drop = store.dropHeldImport(held.id);
    await vi.waitFor(() => expect(disk.armed).toBe(true));
    disk.times = 0;
    await drop;
    await store.saveDraft('reflect', 'y');
    await store.close();
    const again = await openIn(folder);
    expect([await again.heldImport(held.id), await again.draft('reflect')]).toEqual([null, 'y']);
    complaint.mockRestore();
  });
});

describe('a folder that cannot be opened', () => {
  it.each([
    ['ENOSPC', 'The disk is full'],
    ['EROFS', 'can only be read'],
    ['EACCES', 'not allowed'],
  ])('is said in a sentence with what to do (%s)', async (code, words) => {
    const folder = join(await freshFolder(), 'record');
    disk.start = code;
    await expect(openStore(folder, now)).rejects.toMatchObject({
      code: 'disk',
      message: expect.stringMatching(new RegExp(`${words}.*NEXT_TWENTY_DATA`)),
    });
  });

  it('because a folder stands where a file should, or a file where the folder should', async () => {
    const folder = await freshFolder();
    await mkdir(join(folder, 'contents.json'));
    await expect(openStore(folder, now)).rejects.toMatchObject({
      code: 'disk',
      message: expect.stringContaining('a folder where a file'),
    });
    expect(await readdir(folder)).not.toContain('owner.lock');
    const file = join(folder, 'file');
    await writeFile(file, 'mine');
    await expect(openStore(join(file, 'record'), now)).rejects.toMatchObject({
      code: 'disk',
      message: expect.stringContaining('a file where a folder'),
    });
  });

  it('made new has its own entry in its parent made durable', async () => {
    const parent = await freshFolder();
    await openIn(join(parent, 'deeper', 'record'));
    expect(disk.synced).toEqual(
      expect.arrayContaining([parent, join(parent, 'deeper'), join(parent, 'deeper', 'record')]),
    );
  });
});

describe('what servers that died left beside the lock', () => {
  it('is swept, and what another may be making this moment is not', async () => {
    const folder = await freshFolder();
    const dead = {
      pid: 2 ** 22 - 1,
      host: (await import('node:os')).hostname(),
      started: '1',
      token: 'dead',
      since: now,
    };
    await writeFile(join(folder, 'owner.lock.0b1c'), JSON.stringify(dead));
    await writeFile(join(folder, 'owner.lock.after-12345678'), JSON.stringify(dead));
    await writeFile(join(folder, 'owner.lock.half'), '{"pi');
    await writeFile(join(folder, 'owner.lock.old'), '{"pi');
    const hourAgo = Date.now() / 1000 - 3600;
    await utimes(join(folder, 'owner.lock.old'), hourAgo, hourAgo);
    await openIn(folder);
    const left = (await readdir(folder)).filter((name) => name.startsWith('owner.lock'));
    expect(left.sort()).toEqual(['owner.lock', 'owner.lock.half']);
    expect((await stat(join(folder, 'owner.lock'))).size).toBeGreaterThan(0);
    expect(basename(folder)).toContain('next-twenty');
  });
});
