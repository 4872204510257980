import { createCipheriv, createDecipheriv, randomBytes, type DecipherGCM } from 'node:crypto';
import { open } from 'node:fs/promises';
import { COST, passphraseSchema, readPassphrase, type Passphrase } from '../access/passphrase';
import { keyIn, type DataKey } from '../storage/disk/sealed';

/*
 * A copy that opens by itself, wherever it is taken: `NT20`, version 2, the length of the head (4 bytes), the head, which is
 * the passphrase file of its day as JSON, nonce (12), AES-256-GCM ciphertext, tag (16). All before the nonce is authenticated.
 */
const MAGIC = Buffer.from('NT20\u0002', 'latin1');
const HEAD_AT = MAGIC.length + 4;
const HEAD_MOST = 4096;
const NONCE = 12;
const TAG = 16;

/** With what a copy is encrypted. */
export type Lock = { head: Buffer; data: DataKey };

/** Why an encrypted copy does not open, as a sentence. */
export class ClosedCopy extends Error {}

/** With what copies of the record in this folder are encrypted as things stand; `null`: they are plain. */
export async function lockOf(place: string): Promise<Lock | null> {
  const sealing = keyIn(place);
  const file = sealing?.writes ? await readPassphrase(place) : null;
  if (!sealing || !file) return null;
  const { files: _, ...head } = file;
  return { head: Buffer.from(JSON.stringify(head)), data: sealing.data };
}

export function* piecesUnder(lock: Lock | null, pieces: Iterable<string | Uint8Array>): Generator<string | Uint8Array> {
  if (!lock) return yield* pieces;
  const length = Buffer.alloc(4);
  length.writeUInt32BE(lock.head.length);
  const front = Buffer.concat([MAGIC, length, lock.head]);
  const nonce = randomBytes(NONCE);
  const cipher = createCipheriv('aes-256-gcm', lock.data.key, nonce, { authTagLength: TAG }).setAAD(front);
  yield Buffer.concat([front, nonce]);
  for (const piece of pieces) yield typeof piece === 'string' ? cipher.update(piece, 'utf8') : cipher.update(piece);
  yield Buffer.concat([cipher.final(), cipher.getAuthTag()]);
}

/** Is this copy, there or not, in the form in which it would be written now? */
export async function isUnder(lock: Lock | null, path: string): Promise<boolean> {
  const handle = await open(path);
  try {
    const { buffer, bytesRead } = await handle.read(Buffer.alloc(HEAD_AT + HEAD_MOST), 0, HEAD_AT + HEAD_MOST, 0);
    const front = buffer.subarray(0, bytesRead);
    if (!front.subarray(0, MAGIC.length).equals(MAGIC)) return lock === null;
    return lock !== null && front.subarray(HEAD_AT).subarray(0, lock.head.length).equals(lock.head);
  } finally {
    await handle.close();
  }
}

/** The key that opens a copy, by what stands in its head. @throws ClosedCopy */
export type Opener = (head: Passphrase) => Promise<DataKey> | DataKey;

/**
 * The bytes of a copy in whichever form, as they arrive. What was yielded is true only once all of it was: that nothing
 * was changed is known at the end.
 * @throws ClosedCopy
 */
export async function* openedBytes(
  bytes: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  opener: Opener,
): AsyncGenerator<Uint8Array> {
  let held: Buffer = Buffer.alloc(0);
  let decipher: DecipherGCM | null = null;
  let plain = false;
  for await (const chunk of bytes) {
    if (plain) {
      yield chunk;
      continue;
    }
    held = Buffer.concat([held, chunk]);
    if (!decipher) {
      if (held.length < MAGIC.length) continue;
      if (!held.subarray(0, MAGIC.length).equals(MAGIC)) {
        plain = true;
        yield held;
        continue;
      }
      const size = held.length < HEAD_AT ? 0 : held.readUInt32BE(MAGIC.length);
      if (size > HEAD_MOST) throw altered();
      const front = HEAD_AT + size;
      if (size === 0 || held.length < front + NONCE) continue;
      const data = await opener(headOf(held.subarray(HEAD_AT, front)));
      decipher = createDecipheriv('aes-256-gcm', data.key, held.subarray(front, front + NONCE), { authTagLength: TAG });
      decipher.setAAD(held.subarray(0, front));
      held = held.subarray(front + NONCE);
    }
    if (held.length <= TAG) continue;
    yield decipher.update(held.subarray(0, -TAG));
    held = held.subarray(-TAG);
  }
  if (plain) return;
  if (!decipher && !held.subarray(0, MAGIC.length).equals(MAGIC)) return yield held; // shorter than its first word
  if (!decipher || held.length < TAG) throw altered();
  try {
    yield decipher.setAuthTag(held).final();
  } catch {
    throw altered();
  }
}

const altered = () =>
  new ClosedCopy('This encrypted copy was changed or cut off since it was written. Choose another.');

function headOf(bytes: Buffer): Passphrase {
  try {
    const head = passphraseSchema.parse(JSON.parse(bytes.toString('utf8')));
    if (head.kdf.N > COST) throw altered(); // it would take more memory than any of ours
    return head;
  } catch {
    throw altered();
  }
}
