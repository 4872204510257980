import { attempt } from './attempt';
import { readBackup } from './backup-reading';
import { safeName } from './held-import';
import { NoFile, sentFile } from './sent-file';
import type { Everything, Store } from './storage/port';

type Sent = { name: string; everything: Everything; missing: string[] };

/** The backup that a form sent, read to its end and checked; or why there is none, naming the file. */
export async function sentBackup(request: Request): Promise<Sent | { problem: string }> {
  try {
    const { name, bytes } = await sentFile(request);
    const read = await readBackup(bytes);
    if (name === '') return { problem: 'Choose the file that was exported before.' };
    return 'problem' in read ? { problem: `${safeName(name)}: ${read.problem}` } : { name: safeName(name), ...read };
  } catch (why) {
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
  const sent = await sentBackup(request);
  if ('problem' in sent) return { ...sent, status: 400 };
  const { refused } = await attempt('file', () => store.restoreEverything(sent.everything));
  if (refused) return { problem: `${sent.name}: ${refused.message}`, status: 409 };
  return { problem: null, missing: sent.missing };
}
