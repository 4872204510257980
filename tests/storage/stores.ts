import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach } from 'vitest';
import { openMemoryStore, openStore, type Store } from '../../src/lib/server/storage';
import { now } from '../made-up/stored';

const undo: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const each of undo.splice(0).reverse()) await each();
});

/** An empty folder of its own, gone after the test. */
export async function freshFolder(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'next-twenty-'));
  undo.push(() => rm(folder, { recursive: true, force: true }));
  return folder;
}

/** Opens the store of a folder and closes it after the test. */
export async function openIn(folder: string): Promise<Store> {
  const store = await openStore(folder, now);
  undo.push(() => store.close());
  return store;
}

/** Every adapter behind the port, each as a way to an empty store. */
export const adapters: readonly { name: string; open: () => Promise<Store> }[] = [
  { name: 'memory', open: openMemoryStore },
  { name: 'disk', open: async () => openIn(await freshFolder()) },
];
