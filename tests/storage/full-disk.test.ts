import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openStore } from '../../src/lib/server/storage';
import { aCase, now } from '../made-up/stored';
import { freshFolder, openIn } from './stores';

/** A disk that refuses: writing of any new file, or putting a new file in the place of one whose name ends so. */
const disk = vi.hoisted(() => ({ full: false, refusedName: '' }));

vi.mock('node:fs/promises', async (original) => {
  const real = await original<typeof import('node:fs/promises')>();
  const failure = (code: string) => Object.assign(new Error(`${code}: refused by the test`), { code });
  return {
    ...real,
    open: async (...args: Parameters<typeof real.open>) => {
      const handle = await real.open(...args);
      if (disk.full && String(args[1]).includes('w'))
        handle.writeFile = async (data) => {
          await handle.write(String(data).slice(0, 10)); // as a disk does that fills on the way
          throw failure('ENOSPC');
        };
      return handle;
    },
    rename: async (from: string, to: string) => {
      if (disk.refusedName && to.endsWith(disk.refusedName)) throw failure('EIO');
      return real.rename(from, to);
    },
  };
});

afterEach(() => Object.assign(disk, { full: false, refusedName: '' }));

describe('a full disk', () => {
  it('is said, nothing changes, no half file stays, and the next save works once there is room', async () => {
    const store = await openIn(await freshFolder());
    await store.recordCase(aCase('A'));
    const [stored] = await store.cases();
    const before = await readFile(join(store.place, 'cases', '1.json'), 'utf8');
    if (!stored) throw new Error('no case');

    disk.full = true;
    const oneFile = store.updateCase({ ...stored, position: 3 }, 'place', now);
    await expect(oneFile).rejects.toMatchObject({ code: 'disk', message: expect.stringContaining('full') });
    await expect(store.eraseCase(stored.id, now)).rejects.toMatchObject({ code: 'disk' });
    disk.full = false;

    expect(await readFile(join(store.place, 'cases', '1.json'), 'utf8')).toBe(before);
    expect([...(await readdir(store.place)), ...(await readdir(join(store.place, 'cases')))]).not.toContainEqual(
      expect.stringMatching(/making|journal/),
    );
    expect(await store.cases()).toEqual([stored]);
    expect(await store.updateCase({ ...stored, position: 3 }, 'place', now)).toMatchObject({ position: 3, version: 2 });
  });
});

describe('a disk that fails between the journal and a file', () => {
  it('has the change all the same: it stands in the journal, and in the file before the next change', async () => {
    const complaint = vi.spyOn(console, 'error').mockImplementation(() => {});
    const folder = await freshFolder();
    const store = await openStore(folder, now);
    const { id } = await store.recordCase(aCase('A'));
    disk.refusedName = 'cases/1.json';
    await store.eraseCase(id, now);
    expect(complaint).toHaveBeenCalledOnce();
    expect([await store.cases(), await readdir(folder)]).toEqual([[], expect.arrayContaining(['journal.json'])]);
    await expect(store.saveDraft('reflect', 'x')).rejects.toMatchObject({ code: 'disk' });

    disk.refusedName = '';
    await store.saveDraft('reflect', 'y');
    expect(await readdir(folder)).not.toContain('journal.json');
    await store.close();
    const again = await openIn(folder);
    expect([await again.cases(), await again.erasedCount(), await again.draft('reflect')]).toEqual([[], 1, 'y']);
    complaint.mockRestore();
  });
});
