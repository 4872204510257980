import { createCipheriv, createDecipheriv, createHash, randomBytes, scrypt, timingSafeEqual } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { makeFolder } from '../storage/disk/folder';
import type { DataKey } from '../storage/disk/sealed';
import { removeDurably, replaceDurably } from '../storage/disk/durable';
import { StorageError } from '../storage/port';

/**
 * `passphrase.json`, readable by anybody who has the folder: how the passphrase becomes a key, by what the key is known to
 * be right, and a random data key wrapped with it. A new passphrase wraps the same data key again, so that nothing that
 * was encrypted with it has to be written anew.
 */
export const passphraseSchema = z.strictObject({
  version: z.literal(1),
  keyId: z.string().regex(/^[0-9a-f]{16}$/),
  kdf: z.strictObject({
    name: z.literal('scrypt'),
    N: z
      .number()
      .int()
      .min(2)
      .max(2 ** 20),
    r: z.literal(8),
    p: z.literal(1),
    salt: z.string().regex(/^[0-9a-f]{32}$/),
  }),
  check: z.string().regex(/^[0-9a-f]{64}$/),
  wrapped: z.string().regex(/^[0-9a-f]{80}$/),
  /**
   * Whether the files of the record are encrypted with that key; `-ing`: on the way there, to be finished at the next start.
   * A file from before there was a choice says nothing: they are plain.
   */
  files: z.enum(['plain', 'sealing', 'sealed', 'opening']).default('plain'),
});
export type Passphrase = z.infer<typeof passphraseSchema>;

export const passphrasePath = (folder: string) => join(folder, 'passphrase.json');

/** 128 MiB and about half a second a try: what OWASP's password storage page gives for scrypt (N = 2^17, r = 8, p = 1). */
export const COST = 2 ** 17;
export const LEAST_LETTERS = 12;
export const MOST_LETTERS = 200;

/** At most two at once: each takes 128 MiB, and many at once would be an attack on memory. */
let running = 0;
const waiting: (() => void)[] = [];
async function inTurn<Answer>(work: () => Promise<Answer>): Promise<Answer> {
  while (running >= 2) await new Promise<void>((go) => waiting.push(go));
  running += 1;
  try {
    return await work();
  } finally {
    running -= 1;
    waiting.shift()?.();
  }
}

/** 64 bytes: the first half wraps the data key, the second says whether the passphrase is right. */
const derived = (text: string, { N, r, p, salt }: Passphrase['kdf']): Promise<Buffer> =>
  inTurn(
    () =>
      new Promise((resolve, reject) => {
        // Node refuses exactly 128·N·r bytes; one megabyte more will do.
        const maxmem = 128 * N * r + 2 ** 20;
        scrypt(text.normalize('NFKC'), Buffer.from(salt, 'hex'), 64, { N, r, p, maxmem }, (why, key) =>
          why ? reject(why) : resolve(key),
        );
      }),
  );

const WRAP_IV = Buffer.alloc(8, 0xa6);
const checkOf = (key: Buffer) => createHash('sha256').update(key.subarray(32)).digest();

/** A passphrase for this data key, or for a new one. */
export async function passphraseOf(
  text: string,
  data: DataKey | null = null,
  N = COST,
  files: Passphrase['files'] = 'plain',
): Promise<Passphrase> {
  const { keyId, key } = data ?? { keyId: randomBytes(8).toString('hex'), key: randomBytes(32) };
  const kdf = { name: 'scrypt' as const, N, r: 8 as const, p: 1 as const, salt: randomBytes(16).toString('hex') };
  const made = await derived(text, kdf);
  const cipher = createCipheriv('id-aes256-wrap', made.subarray(0, 32), WRAP_IV);
  const wrapped = Buffer.concat([cipher.update(key), cipher.final()]).toString('hex');
  return { version: 1, keyId, kdf, check: checkOf(made).toString('hex'), wrapped, files };
}

/** The data key, where the passphrase is right; compared in constant time. */
export async function keyFor(file: Passphrase, text: string): Promise<DataKey | null> {
  const made = await derived(text, file.kdf);
  if (!timingSafeEqual(checkOf(made), Buffer.from(file.check, 'hex'))) return null;
  const decipher = createDecipheriv('id-aes256-wrap', made.subarray(0, 32), WRAP_IV);
  return {
    keyId: file.keyId,
    key: Buffer.concat([decipher.update(Buffer.from(file.wrapped, 'hex')), decipher.final()]),
  };
}

/**
 * @returns `null` where no passphrase was set
 * @throws StorageError `unreadable`: a damaged file is never taken for none
 */
export async function readPassphrase(folder: string): Promise<Passphrase | null> {
  const path = passphrasePath(folder);
  try {
    return passphraseSchema.parse(JSON.parse(await readFile(path, 'utf8')));
  } catch (why) {
    if ((why as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw new StorageError(
      'unreadable',
      `${path} says which passphrase opens this record, and cannot be read. Nothing was touched and nobody is let in without it. Bring the file back from a copy of the folder.`,
    );
  }
}

/** The last change of each folder's file; the next one waits for it. */
const changing = new Map<string, Promise<unknown>>();

/**
 * Changes the file as it stands when its turn comes: what two tabs decide at the same moment, or a tab while files are
 * being encrypted, is decided one after the other, and nobody writes what they read before the other wrote.
 * @param change what is to stand there; `null`: no file; the very one it was given: nothing is written
 * @returns what stands there afterwards
 */
export function changePassphrase(
  folder: string,
  change: (now: Passphrase | null) => Passphrase | null,
): Promise<Passphrase | null> {
  const changed = (changing.get(folder) ?? Promise.resolve()).then(async () => {
    const now = await readPassphrase(folder);
    const file = change(now);
    if (file === now) return now;
    if (file === null) await removeDurably(passphrasePath(folder));
    else {
      await makeFolder(folder);
      await replaceDurably(passphrasePath(folder), JSON.stringify(file));
    }
    return file;
  });
  changing.set(
    folder,
    changed.catch(() => undefined),
  );
  return changed;
}
