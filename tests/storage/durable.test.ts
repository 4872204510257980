import { readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { replaceDurably } from '../../src/lib/server/storage/disk/durable';
import { freshFolder } from './stores';

/** A power cut cannot be had in a test; the order of what guards against one can. */
const calls = vi.hoisted((): string[] => []);

vi.mock('node:fs/promises', async (original) => {
  const real = await original<typeof import('node:fs/promises')>();
  return {
    ...real,
    open: async (...args: Parameters<typeof real.open>) => {
      const name = basename(String(args[0])).replace(/-[0-9a-f]{8}$/, '');
      const handle = await real.open(...args);
      const { writeFile, sync } = handle;
      handle.writeFile = (...rest) => (calls.push(`write ${name}`), writeFile.apply(handle, rest));
      handle.sync = () => (calls.push(`sync ${name}`), sync.apply(handle));
      return handle;
    },
    rename: (from: string, to: string) => (calls.push(`rename to ${basename(to)}`), real.rename(from, to)),
  };
});

describe('putting a text in the place of a file', () => {
  it('flushes the file before it gets its name, and the folder before it counts as done', async () => {
    const folder = await freshFolder();
    await replaceDurably(join(folder, 'profile.json'), 'text');
    expect(calls).toEqual([
      'write .profile.json.making',
      'sync .profile.json.making',
      'rename to profile.json',
      `sync ${basename(folder)}`,
    ]);
    expect(await readFile(join(folder, 'profile.json'), 'utf8')).toBe('text');
  });
});
