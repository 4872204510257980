import { createHash } from 'node:crypto';
import { rename, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { z } from 'zod';
import { isDocumentName, type DocumentName } from '../documents';
import { StorageError } from '../port';
import type { Forgotten } from '../shelf';
import { removeDurably, replaceDurably, syncFolder } from './durable';
import { stampOf } from './put-aside';
import { BRING_KEY, NotOpened } from './sealed';
import { readText } from './text-file';

const journalSchema = z.strictObject({
  schemaVersion: z.number().int(),
  hash: z.string(),
  /** New text of each file; `null`: the file goes. */
  files: z.record(z.string(), z.string().nullable()),
  /** Cases that the change erases everywhere, by id, each with its code: no earlier version of them may be left. */
  forgotten: z.record(z.string(), z.string()).optional(),
});

export type FileTexts = ReadonlyMap<DocumentName | 'contents', string | null>;

const hashOf = (files: Record<string, string | null>) =>
  createHash('sha256').update(JSON.stringify(files)).digest('hex');
const pathIn = (folder: string) => join(folder, 'journal.json');

/** What Node reads back as one text is just over 536 million characters; a journal it could not read would be lost. */
const MOST = 500_000_000;

/**
 * Returns when the whole change is on disk in one file: from then on it happens, whatever happens to the machine. A
 * piece a document, with others answered between them: a whole record brought back is a hundred megabytes.
 * @throws StorageError `invalid` for a change too large to be read back
 */
export async function writeJournal(
  folder: string,
  texts: FileTexts,
  schemaVersion: number,
  forgotten: Forgotten = new Map(),
): Promise<void> {
  const hash = createHash('sha256');
  const files: string[] = [];
  let length = 0;
  for (const [name, text] of texts) {
    const piece = `${files.length === 0 ? '{' : ','}${JSON.stringify(name)}:${JSON.stringify(text)}`;
    hash.update(piece);
    files.push(piece);
    length += piece.length;
    if (length > MOST)
      throw new StorageError('invalid', 'This is more than one change can hold (500 MB). Nothing was changed.');
    await setImmediate();
  }
  files.push('}');
  const opening = `{"schemaVersion":${schemaVersion},"hash":"${hash.update('}').digest('hex')}","files":`;
  const closing = forgotten.size > 0 ? `,"forgotten":${JSON.stringify(Object.fromEntries(forgotten))}}` : '}';
  await replaceDurably(pathIn(folder), [opening, ...files, closing]);
}

export const removeJournal = (folder: string) => removeDurably(pathIn(folder));

/** What a journal is, by reading alone; `closed`: encrypted, and its key is not here. */
export async function wholeJournal(folder: string): Promise<'none' | 'whole' | 'broken' | 'closed'> {
  try {
    return whole(await readText(pathIn(folder))) ? 'whole' : 'broken';
  } catch (why) {
    if (why instanceof NotOpened && !why.damaged) return 'closed';
    return (why as NodeJS.ErrnoException).code === 'ENOENT' ? 'none' : 'broken';
  }
}

/**
 * The change a crash left half done, or null. A journal that is not whole was never acknowledged: it is put aside.
 * @throws StorageError `newer`, or `unreadable` where it is encrypted and its key is not here
 */
export async function readJournal(
  folder: string,
  schemaVersion: number,
): Promise<{ texts: FileTexts; began: number; forgotten: Forgotten } | null> {
  const path = pathIn(folder);
  let text = '';
  try {
    text = await readText(path);
  } catch (why) {
    if ((why as NodeJS.ErrnoException).code === 'ENOENT') return null;
    if (!(why instanceof NotOpened)) throw why;
    if (!why.damaged) throw new StorageError('unreadable', `${path} cannot be read: ${why.message}. ${BRING_KEY}`);
  }
  const journal = whole(text);
  if (!journal) {
    await rename(path, `${path}.broken-${stampOf(new Date())}`);
    await syncFolder(folder);
    return null;
  }
  if (journal.schemaVersion > schemaVersion)
    throw new StorageError(
      'newer',
      `${path} was written by a later version of this program. Nothing has been touched. Start the later version.`,
    );
  const texts = new Map(Object.entries(journal.files) as [DocumentName | 'contents', string | null][]);
  const began = Math.floor((await stat(path)).mtimeMs);
  return { texts, began, forgotten: new Map(Object.entries(journal.forgotten ?? {})) };
}

function whole(text: string): z.infer<typeof journalSchema> | null {
  try {
    const journal = journalSchema.parse(JSON.parse(text));
    const known = Object.keys(journal.files).every((name) => name === 'contents' || isDocumentName(name));
    return known && journal.hash === hashOf(journal.files) ? journal : null;
  } catch {
    return null;
  }
}
