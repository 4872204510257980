import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto';
import { relative, resolve, sep } from 'node:path';

/** What encrypts the files of a record, and the id by which a file says so. */
export type DataKey = { keyId: string; key: Buffer };

/*
 * A file of an encrypted record: `NT20`, version 1, id of the key (8 bytes), nonce (12), AES-256-GCM ciphertext, tag (16).
 * The header and the document's name are authenticated with it, so that one file in the place of another is refused; an
 * older version of the same file is not, which is what a backup is.
 */
const MAGIC = Buffer.from('NT20\u0001', 'latin1');
const NONCE = 12;
const TAG = 16;
const HEADER = MAGIC.length + 8;

type Sealing = { data: DataKey; writes: boolean };
/** What to do about a file whose key is not here. */
export const BRING_KEY = 'Nothing was touched. Bring passphrase.json, or the whole folder, back from a copy.';

/** An encrypted file that cannot be read here; the message says why, as the end of a sentence. */
export class NotOpened extends Error {
  /** @param damaged the key is there, and the file is not what was written with it */
  constructor(
    message: string,
    readonly damaged = false,
  ) {
    super(message);
  }
}

/** By data folder, on the process: a development server reads this module again while the folder stays open. */
const registry = globalThis as typeof globalThis & { nextTwentySealing?: Map<string, Sealing> };
const sealings = (registry.nextTwentySealing ??= new Map());

/** @param writes `false`: encrypted files are read, and written plainly; `data` null: the key is forgotten */
export function useKey(folder: string, data: DataKey | null, writes: boolean): void {
  if (data) sealings.set(resolve(folder), { data, writes });
  else sealings.delete(resolve(folder));
}

/** The key of a folder that is open, and whether its files are written with it. */
export const keyIn = (folder: string): Sealing | null => sealings.get(resolve(folder)) ?? null;

function sealingOf(path: string): { sealing: Sealing; inside: string } | null {
  const whole = resolve(path); // a folder named another way must not be written plainly
  for (const [folder, sealing] of sealings)
    if (whole.startsWith(folder + sep)) return { sealing, inside: relative(folder, whole).split(sep).join('/') };
  return null;
}

/** Read before anybody has given a passphrase. */
export const neverSealed = (inside: string): boolean => inside === 'passphrase.json' || inside.startsWith('owner.lock');

/** A backup and a copy put aside carry the name of their document. */
const documentOf = (inside: string): string =>
  inside.startsWith('backups/') ? inside.slice(8).replace(/\/[^/]*$/, '') : inside.replace(/\.json(\..*)?$/, '');

const boundTo = (header: Buffer, inside: string) => Buffer.concat([header, Buffer.from(documentOf(inside))]);

export const isSealed = (content: Buffer): boolean => content.subarray(0, MAGIC.length).equals(MAGIC);

/** Whose key opens a file, by what anybody can read of it: the id, `short` where it is cut off, `null` for a plain one. */
export const keyOutside = (content: Buffer): string | null =>
  !isSealed(content)
    ? null
    : content.length < HEADER + NONCE + TAG
      ? 'short'
      : content.subarray(MAGIC.length, HEADER).toString('hex');

/** The pieces of a file as they go on disk: encrypted where this record is. */
export function* asWritten(path: string, pieces: Iterable<string | Uint8Array>): Generator<string | Uint8Array> {
  const found = sealingOf(path);
  if (!found?.sealing.writes || neverSealed(found.inside)) {
    yield* pieces;
    return;
  }
  const { data } = found.sealing;
  const header = Buffer.concat([MAGIC, Buffer.from(data.keyId, 'hex')]);
  const nonce = randomBytes(NONCE);
  const cipher = createCipheriv('aes-256-gcm', data.key, nonce, { authTagLength: TAG });
  cipher.setAAD(boundTo(header, found.inside));
  yield Buffer.concat([header, nonce]);
  for (const piece of pieces) yield typeof piece === 'string' ? cipher.update(piece, 'utf8') : cipher.update(piece);
  yield Buffer.concat([cipher.final(), cipher.getAuthTag()]);
}

/** @throws NotOpened */
export function asRead(path: string, content: Buffer): Buffer {
  if (!isSealed(content)) return content;
  const found = sealingOf(path);
  if (!found) throw new NotOpened('it is encrypted, and no passphrase was given for it');
  const { data } = found.sealing;
  const key = keyOutside(content);
  if (key === 'short') throw new NotOpened('it is encrypted and was cut short', true);
  if (key !== data.keyId) throw new NotOpened('it was encrypted with the key of another record');
  const header = content.subarray(0, HEADER);
  const nonce = content.subarray(HEADER, HEADER + NONCE);
  try {
    const decipher = createDecipheriv('aes-256-gcm', data.key, nonce, { authTagLength: TAG });
    decipher.setAAD(boundTo(header, found.inside));
    decipher.setAuthTag(content.subarray(-TAG));
    return Buffer.concat([decipher.update(content.subarray(HEADER + NONCE, -TAG)), decipher.final()]);
  } catch {
    throw new NotOpened('it is encrypted and was changed, cut short or exchanged', true);
  }
}
