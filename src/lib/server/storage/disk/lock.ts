import { randomUUID } from 'node:crypto';
import { link, open, readdir, readFile, rename, stat, unlink } from 'node:fs/promises';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { StorageError } from '../port';
import { heldBy, isAlive, lockName, processStart, readOwner } from './owner.js';

/** Tokens this process holds, kept on the process: a development server reads this module again while it holds a folder. */
const registry = globalThis as typeof globalThis & { nextTwentyLocks?: Set<string> };
const mine = (registry.nextTwentyLocks ??= new Set());

type Owner = NonNullable<ReturnType<typeof readOwner>>;

const ownerAt = (path: string, folder: string): Owner | null => {
  try {
    return readOwner(path);
  } catch {
    throw new StorageError(
      'locked',
      `The file ${path} should say who uses the data folder ${folder}, and cannot be read. If no other server runs, delete it and start again.`,
    );
  }
};

/** This process after a restart in a container has the same number; only a token it really holds is its own lock. */
const runs = (owner: Owner) =>
  mine.has(owner.token) ||
  (owner.pid === process.pid && owner.host === hostname() && owner.started === null ? false : isAlive(owner));

/** The lock made by `link()`: the name appears with its whole content or not at all, and only one can make it. */
async function linked(path: string, content: string, token: string): Promise<boolean> {
  const own = `${path}.${token}`;
  const handle = await open(own, 'wx', 0o600);
  await handle.writeFile(content);
  await handle.sync();
  await handle.close();
  try {
    await link(own, path);
    return true;
  } catch (why) {
    if ((why as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw why;
  } finally {
    await unlink(own);
  }
}

/**
 * Takes the lock at `path`. The lock of a dead owner is replaced by whoever first takes a second lock named after that
 * very owner; the others find, once they get that far, that the first lock is no longer the dead one's.
 */
async function take(path: string, folder: string, owner: Owner): Promise<void> {
  const content = JSON.stringify(owner);
  for (let tries = 0; tries < 20; tries += 1) {
    if (await linked(path, content, owner.token)) return;
    const holder = ownerAt(path, folder);
    if (!holder) continue; // released this moment
    if (runs(holder)) throw new StorageError('locked', heldBy(folder, holder));
    const gate = `${path}.after-${holder.token.slice(0, 8)}`;
    await take(gate, folder, owner);
    try {
      if (ownerAt(path, folder)?.token !== holder.token) continue;
      const own = `${path}.${owner.token}`;
      const handle = await open(own, 'wx', 0o600);
      await handle.writeFile(content);
      await handle.sync();
      await handle.close();
      await rename(own, path);
      return;
    } finally {
      await unlink(gate);
    }
  }
  throw new StorageError('locked', `Several servers want the data folder ${folder} at once. Start one of them again.`);
}

const aMinute = 60_000;

/**
 * Takes away what servers that died on their way to the lock left beside it. What cannot be read may be another server's
 * this very moment, so it must be older than a minute.
 */
async function sweep(folder: string): Promise<void> {
  for (const name of await readdir(folder)) {
    if (!name.startsWith(`${lockName}.`)) continue;
    const path = join(folder, name);
    try {
      const owner = readOwner(path);
      if (owner && !runs(owner)) await unlink(path);
    } catch {
      const { mtimeMs } = await stat(path);
      if (Date.now() - mtimeMs > aMinute) await unlink(path);
    }
  }
}

export type Lock = {
  /** @throws StorageError `locked` when the lock has gone to somebody else */
  check(): Promise<void>;
  release(): Promise<void>;
};

/** @throws StorageError `locked`, naming the living owner of the folder */
export async function takeLock(folder: string, now: string): Promise<Lock> {
  const path = join(folder, lockName);
  const token = randomUUID();
  await take(path, folder, {
    pid: process.pid,
    host: hostname(),
    started: processStart(process.pid),
    token,
    since: now,
  });
  mine.add(token);
  await sweep(folder).catch(() => {}); // a file that stays does no harm
  const held = async () => {
    const text = await readFile(path, 'utf8').catch(() => '');
    return text.includes(token);
  };
  return {
    check: async () => {
      if (await held()) return;
      throw new StorageError(
        'locked',
        `Another server has taken the data folder ${folder}. Nothing was written; stop one of them and start again.`,
      );
    },
    release: async () => {
      if (await held()) await unlink(path);
      mine.delete(token);
    },
  };
}
