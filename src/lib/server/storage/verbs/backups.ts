import type { Work } from '../../../turns';
import { inTurns } from '../../in-turns';
import { isDocumentName, kindOf, type DocumentName } from '../documents';
import { crossChecked } from '../everything-schema';
import { StorageError, type BackedFile, type Store } from '../port';
import { readable } from '../readable-part';
import { checkReadable } from '../readable';
import type { Backups, Reader, Shelf } from '../shelf';
import { sinceThen } from '../since-then';
import { asRestored, type Restoring } from './as-restored';
import { holdsOf, tolerant } from './damage';
import { everythingOf } from './everything';
import { importNames } from './held-imports';
import { profileOf } from './settings';

type Then = ReadonlyMap<DocumentName, object | StorageError | null>;

const momentWords = (at: string) => `${at.slice(0, 16).replace('T', ', ')} UTC`;

/** What stood then; imports that were brought in since had not been. `null`: no moment that can be gone back to. */
async function thenOf(shelf: Shelf, backups: Backups, at: string): Promise<Then | null> {
  const reader = tolerant(shelf);
  const { backupMonths } = profileOf(reader);
  if (!backups.moments(backupMonths).some((each) => each.at === at)) return null;
  const then = await backups.before(at, namesOf(shelf));
  for (const name of importNames(reader)) {
    const document = reader.read(name);
    if (document?.state === 'recorded' && document.record.at > at) then.set(name, null);
  }
  return then;
}

const KINDS = [
  'profile',
  'procedures',
  'lists',
  'goals',
  'results',
  'ledger',
  'cases',
  'reflections',
  'reference',
  'imports',
] as const;
const namesOf = (reader: Reader): DocumentName[] => KINDS.flatMap((kind) => reader.names(kind));

const standing = (reader: Reader, name: DocumentName) => readable(() => reader.read(name) as object | null, null);

function* differing(then: Then, reader: Reader): Work<BackedFile[]> {
  const files: BackedFile[] = [];
  for (const [name, was] of then) {
    const about = { name, holds: holdsOf(name) };
    if (was instanceof StorageError) files.push({ ...about, problem: was.message });
    else {
      const since = sinceThen(was, standing(reader, name));
      if (since.added + since.changed + since.removed > 0) files.push({ ...about, since });
    }
    yield 0;
  }
  return files;
}

/** The documents as they are to stand. @throws StorageError where one of them cannot be read, or is not to be changed */
function* restored(then: Then, reader: Reader, how: Restoring): Work<Map<DocumentName, object | null>> {
  const documents = new Map<DocumentName, object | null>();
  for (const [name, was] of then) {
    if (was instanceof StorageError) throw was;
    const is = standing(reader, name);
    const since = sinceThen(was, is);
    if (since.added + since.changed + since.removed > 0) {
      const document = asRestored(name, was, is, how);
      if (document) checkReadable(name, document);
      documents.set(name, document);
    }
    yield 0;
  }
  return documents;
}

/** @throws StorageError `in-use` where records would name what is not there */
function* fitting(documents: ReadonlyMap<DocumentName, object | null>, shelf: Shelf, alone: boolean): Work<void> {
  const now = tolerant(shelf);
  const reader: Reader = {
    read: (name) => (documents.has(name) ? documents.get(name) : now.read(name)) as never,
    names: (kind) => [...new Set([...now.names(kind), ...documents.keys()])].filter((name) => kindOf(name) === kind),
  };
  const refuse = (field: string, index: number, why: string) => {
    throw new StorageError(
      'in-use',
      alone
        ? `Brought back alone, this file would not fit the others (${field}, ${index + 1}: ${why}). Nothing was changed; bring back everything as it stood then.`
        : `What stood then does not fit together (${field}, ${index + 1}: ${why}). Nothing was changed.`,
    );
  };
  yield* crossChecked(everythingOf(reader), refuse, shelf.damaged().length > 0);
}

const none = (): StorageError =>
  new StorageError('not-found', 'There is no backup of that moment any longer. Nothing was changed.');

export const backupVerbs = (
  shelf: Shelf,
): Pick<Store, 'backups' | 'changedSince' | 'restoreBackup' | 'newestBackup' | 'setAside' | 'dropSetAside'> => ({
  backups: async () =>
    (shelf.backups?.moments(profileOf(tolerant(shelf)).backupMonths) ?? []).map(({ at, names }) => ({
      at,
      holds: names.map(holdsOf),
      numbersOnly: names.every((name) => name === 'ledger'),
    })),
  changedSince: async (at) => {
    const then = shelf.backups && (await thenOf(shelf, shelf.backups, at));
    return then && inTurns(differing(then, tolerant(shelf)));
  },
  restoreBackup: async (at, name, now) => {
    const { revision } = shelf;
    const then = shelf.backups && (await thenOf(shelf, shelf.backups, at));
    if (!then) throw none();
    const wanted = new Map([...then].filter(([each]) => name === null || each === name));
    const how = { now, what: `Brought back as it stood before ${momentWords(at)}` };
    const documents = await inTurns(restored(wanted, tolerant(shelf), how));
    if (documents.size === 0) return null;
    await inTurns(fitting(documents, shelf, name !== null));
    await shelf.change((draft) => {
      if (shelf.revision !== revision)
        throw new StorageError(
          'in-use',
          'Something was stored while the backup was being read. Nothing was changed; look at what differs now, and press again.',
        );
      for (const [each, document] of documents) draft.replace(each, document);
    });
    return shelf.backups?.moments(profileOf(tolerant(shelf)).backupMonths)[0]?.at ?? null;
  },
  newestBackup: async (name) => {
    const newest = isDocumentName(name) ? await shelf.backups?.newestGood(name) : null;
    return newest ? { at: newest.at, holds: heldIn(newest.document) } : null;
  },
  setAside: async () => (await shelf.backups?.setAside()) ?? [],
  dropSetAside: async () => {
    await shelf.backups?.dropSetAside();
  },
});

/** How many records, or that it is one. */
const heldIn = (document: object): string =>
  'records' in document && Array.isArray(document.records)
    ? `${document.records.length} ${document.records.length === 1 ? 'record' : 'records'}`
    : 'all of it';
