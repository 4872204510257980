import { join } from 'node:path';
import { z } from 'zod';
import { isDocumentName, type DocumentName } from '../documents';
import { StorageError } from '../port';
import type { Versions } from './document-text';
import { BRING_KEY, NotOpened } from './sealed';
import { readText } from './text-file';

/**
 * `contents.json`: which documents there are. Without it a lost file would look like one never written,
 * and the next save would start it anew.
 */
const contentsSchema = z.strictObject({
  schemaVersion: z.number().int(),
  documents: z.array(z.string().refine(isDocumentName)),
});

export const contentsPath = (folder: string) => join(folder, 'contents.json');

export const contentsText = (names: Iterable<DocumentName>, { schemaVersion }: Versions) =>
  JSON.stringify({ schemaVersion, documents: [...names].sort() } satisfies z.input<typeof contentsSchema>);

/**
 * @param standing names of documents found in the folder
 * @returns the names of the documents there should be
 * @throws StorageError `missing`, `unreadable` or `newer`
 */
export async function readContents(
  folder: string,
  standing: readonly DocumentName[],
  versions: Versions,
): Promise<DocumentName[]> {
  const path = contentsPath(folder);
  let text: string;
  try {
    text = await readText(path);
  } catch (why) {
    if (why instanceof NotOpened)
      throw new StorageError('unreadable', `${path} cannot be read: ${why.message}. ${BRING_KEY}`);
    if ((why as NodeJS.ErrnoException).code !== 'ENOENT') throw why;
    if (standing.length === 0) return []; // a new record
    throw new StorageError(
      'missing',
      `${path} is missing, though ${standing.length === 1 ? 'a file' : `${standing.length} files`} of a record are there. Nothing was written. Bring the whole folder back from a copy.`,
    );
  }
  try {
    const raw: unknown = JSON.parse(text.replace(/^\uFEFF/, ''));
    const { schemaVersion } = z.looseObject({ schemaVersion: z.number() }).parse(raw);
    if (schemaVersion > versions.schemaVersion)
      throw new StorageError(
        'newer',
        `${path} was written by a later version of this program (${schemaVersion}). It has not been touched. Start the later version.`,
      );
    return contentsSchema.parse(raw).documents;
  } catch (why) {
    if (why instanceof StorageError) throw why;
    throw new StorageError(
      'unreadable',
      `${path} cannot be read. It has not been touched and nothing was written. Bring the whole folder back from a copy.`,
    );
  }
}
