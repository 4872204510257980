import { createHash } from 'node:crypto';
import { readFile, rename } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { isDocumentName, type DocumentName } from '../documents';
import { StorageError } from '../port';
import { removeDurably, replaceDurably, syncFolder } from './durable';
import { stampOf } from './put-aside';

const journalSchema = z.strictObject({
  schemaVersion: z.number().int(),
  hash: z.string(),
  /** New text of each file; `null`: the file goes. */
  files: z.record(z.string(), z.string().nullable()),
});

export type FileTexts = ReadonlyMap<DocumentName | 'contents', string | null>;

const hashOf = (files: Record<string, string | null>) =>
  createHash('sha256').update(JSON.stringify(files)).digest('hex');
const pathIn = (folder: string) => join(folder, 'journal.json');

/** Returns when the whole change is on disk in one file: from then on it happens, whatever happens to the machine. */
export async function writeJournal(folder: string, texts: FileTexts, schemaVersion: number): Promise<void> {
  const files = Object.fromEntries(texts);
  await replaceDurably(pathIn(folder), JSON.stringify({ schemaVersion, hash: hashOf(files), files }));
}

export const removeJournal = (folder: string) => removeDurably(pathIn(folder));

/**
 * The change a crash left half done, or null. A journal that is not whole was never acknowledged: it is put aside.
 * @throws StorageError `newer`
 */
export async function readJournal(folder: string, schemaVersion: number): Promise<FileTexts | null> {
  const path = pathIn(folder);
  let text: string;
  try {
    text = await readFile(path, 'utf8');
  } catch (why) {
    if ((why as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw why;
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
  return new Map(Object.entries(journal.files) as [DocumentName | 'contents', string | null][]);
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
