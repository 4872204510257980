import { attempt } from './attempt';
import { readBackup } from './backup-reading';
import { safeName } from './held-import';
import { ClosedCopy, openedBytes, type Opener } from './second-folder/encrypted-copy';
import { NoFile, sentFile } from './sent-file';
import { keyFor } from './access/passphrase';
import { keyIn } from './storage/disk/sealed';
import type { Everything, Store } from './storage/port';

type Sent = { name: string; everything: Everything; missing: string[] };

/** An encrypted copy of this record opens by itself; one of another, or from before the passphrase was new, with its own. */
const openerOf =
  (place: string, passphrase: string): Opener =>
  async (head) => {
    const { data } = keyIn(place) ?? {};
    if (data?.keyId === head.keyId) return data;
    if (passphrase === '')
      throw new ClosedCopy('This copy is encrypted. Give its passphrase too, and choose the file again.');
    const key = await keyFor(head, passphrase);
    if (!key)
      throw new ClosedCopy('This is not the passphrase of this copy. Choose the file again with the right one.');
    return key;
  };

/**
 * The backup that a form sent, read to its end and checked; or why there is none, naming the file.
 * @param place of the record that is open: an encrypted copy of it needs no passphrase
 */
export async function sentBackup(request: Request, place: string): Promise<Sent | { problem: string }> {
  let file = '';
  try {
    const { name, fields, bytes } = await sentFile(request);
    file = name;
    const read = await readBackup(openedBytes(bytes, openerOf(place, fields.get('passphrase') ?? '')));
    if (name === '') return { problem: 'Choose the file that was exported before.' };
    return 'problem' in read ? { problem: `${safeName(name)}: ${read.problem}` } : { name: safeName(name), ...read };
  } catch (why) {
    if (why instanceof ClosedCopy) return { problem: `${safeName(file)}: ${why.message}` };
    if (why instanceof NoFile) return { problem: `No file arrived whole: ${why.message}.` };
    throw why;
  }
}

/**
 * Brings back the record of the backup that a form sent, as one change.
 * @returns why not, with its HTTP status (nothing was written then), or what the file itself lacks
 */
export async function restoreSent(
  request: Request,
  store: Store,
): Promise<{ problem: string; status: number } | { problem: null; missing: string[] }> {
  const sent = await sentBackup(request, store.place);
  if ('problem' in sent) return { ...sent, status: 400 };
  const { refused } = await attempt('file', () => store.restoreEverything(sent.everything));
  if (refused) return { problem: `${sent.name}: ${refused.message}`, status: 409 };
  return { problem: null, missing: sent.missing };
}
