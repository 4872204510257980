import { attempt } from './attempt';
import { readBackup } from './backup-reading';
import { safeName } from './held-import';
import { NoFile, sentFile } from './sent-file';
import type { Store } from './storage/port';

/**
 * Brings back the record of the backup that a form sent: read to its end and checked before anything is written, then
 * written as one change.
 * @returns why not, naming the file; nothing was written then
 */
export async function restoreSent(request: Request, store: Store): Promise<{ problem: string | null; status: number }> {
  try {
    const { name, bytes } = await sentFile(request);
    const read = await readBackup(bytes);
    if (name === '') return { problem: 'Choose the file that was exported before.', status: 400 };
    if ('problem' in read) return { problem: `${safeName(name)}: ${read.problem}`, status: 400 };
    const { refused } = await attempt('file', () => store.restoreEverything(read.everything));
    return { problem: refused && `${safeName(name)}: ${refused.message}`, status: 409 };
  } catch (why) {
    if (why instanceof NoFile) return { problem: `No file arrived whole: ${why.message}.`, status: 400 };
    throw why;
  }
}
