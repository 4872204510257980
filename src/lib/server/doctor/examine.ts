import { lstat, readFile } from 'node:fs/promises';
import { kindOf, type DocumentName } from '../storage/documents';
import { readPassphrase, type Passphrase } from '../access/passphrase';
import { crossChecked } from '../storage/everything-schema';
import { DiskBackups } from '../storage/disk/backups';
import { contentsPath, readContents } from '../storage/disk/contents';
import { fromText, NewerVersion, type Versions } from '../storage/disk/document-text';
import { fileOf } from '../storage/disk/folder';
import { BRING_KEY, isSealed, keyIn } from '../storage/disk/sealed';
import { readText } from '../storage/disk/text-file';
import { StorageError } from '../storage/port';
import type { Reader } from '../storage/shelf';
import { everythingOf } from '../storage/verbs/everything';
import { holdsOf } from '../storage/verbs/damage';
import { atOnce } from '../../turns';
import type { Examined, Finding } from './finding';
import { ofJournal, ofLeftovers, ofMode, ofOwner, ofSpace, standingDocuments } from './round-the-record';
import { BROKEN_OFF, CLOSED, outlineOf } from './sealed-outline';

/**
 * What stands in a data folder, by reading alone: nothing in it is changed, not even the lock. An encrypted one is read where
 * its key is in use (`useKey`); else what can be told from outside.
 */
export async function examine(folder: string, versions: Versions): Promise<Examined> {
  const about = await lstat(folder).catch(() => null);
  if (!about) return { findings: [], read: null, inUse: false, closed: false };
  if (!about.isDirectory())
    return {
      findings: [{ kind: 'wrong', what: `${folder} is not a folder.`, todo: 'Choose another with NEXT_TWENTY_DATA.' }],
      read: null,
      inUse: false,
      closed: false,
    };
  const owner = ofOwner(folder);
  const findings = [
    ...ofMode(folder, about.mode),
    ...owner.findings,
    ...(await ofSpace(folder)),
    ...(await ofJournal(folder)),
    ...(await ofLeftovers(folder)),
  ];
  const passphrase = await ofPassphrase(folder);
  if ('finding' in passphrase) findings.push(passphrase.finding);
  else if (passphrase.file && passphrase.file.files !== 'plain') {
    if (passphrase.file.files !== 'sealed') findings.push(BROKEN_OFF);
    if (!keyIn(folder)) {
      findings.push(CLOSED, ...(await outlineOf(folder, passphrase.file)));
      return { findings, read: null, inUse: owner.inUse, closed: true };
    }
  } else if ((await isClosed(contentsPath(folder))) && !keyIn(folder)) {
    findings.push({
      kind: 'wrong',
      what: `The files in ${folder} are encrypted, and passphrase.json does not say so.`,
      todo: `Without it nobody can read them. ${BRING_KEY}`,
    });
    return { findings, read: null, inUse: owner.inUse, closed: true };
  }
  const backups = await DiskBackups.look(folder, versions);
  const standing = await standingDocuments(folder);
  let names: DocumentName[];
  try {
    names = await readContents(folder, standing, versions);
  } catch (why) {
    if (!(why instanceof StorageError)) throw why;
    findings.push({
      kind: 'wrong',
      what: why.message,
      ...(why.code === 'newer' || 'finding' in passphrase
        ? {}
        : { todo: 'What stands in the folder can be listed anew.', mend: { kind: 'contents', names: standing } }),
    });
    names = standing;
  }
  for (const name of standing)
    if (!names.includes(name))
      findings.push({
        kind: 'note',
        what: `${name}.json lies in the folder and is no part of the record: contents.json does not name it.`,
      });
  const documents = new Map<DocumentName, object>();
  for (const name of names) {
    const found = await ofDocument(folder, name, versions, backups);
    if ('document' in found) documents.set(name, found.document);
    else findings.push(found.finding);
  }
  findings.push(...ofWhole(documents, documents.size < names.length), ...(await ofBackups(backups)));
  const cases = [...documents].filter(([name]) => kindOf(name) === 'cases');
  return {
    findings,
    read: {
      documents: documents.size,
      cases: cases.reduce((sum, [, document]) => sum + (document as { records: unknown[] }).records.length, 0),
    },
    inUse: owner.inUse,
    closed: false,
  };
}

const isClosed = (path: string): Promise<boolean> =>
  readFile(path).then(
    (content) => isSealed(content),
    () => false,
  );

async function ofPassphrase(folder: string): Promise<{ file: Passphrase | null } | { finding: Finding }> {
  try {
    return { file: await readPassphrase(folder) };
  } catch (why) {
    if (!(why instanceof StorageError)) throw why;
    return { finding: { kind: 'wrong', what: why.message } };
  }
}

async function ofDocument(
  folder: string,
  name: DocumentName,
  versions: Versions,
  backups: DiskBackups,
): Promise<{ document: object } | { finding: Finding }> {
  const path = fileOf(folder, name);
  try {
    if (!(await lstat(path)).isFile()) throw new Error('it is not an ordinary file');
    return { document: fromText(await readText(path), kindOf(name), versions) };
  } catch (why) {
    if (why instanceof NewerVersion)
      return {
        finding: {
          kind: 'wrong',
          what: `${name}.json was written by a later version of this program.`,
          todo: 'Start the later version.',
        },
      };
    const gone = (why as NodeJS.ErrnoException).code === 'ENOENT';
    const what = `${name}.json ${gone ? 'is missing' : `cannot be read (${(why as Error).message})`}. It holds ${holdsOf(name)}.`;
    const newest = await backups.newestGood(name);
    if (!newest)
      return {
        finding: {
          kind: 'wrong',
          what,
          todo: 'There is no backup of it that can be read. Start the program: Settings takes it from an exported file, or goes on without it.',
        },
      };
    return {
      finding: {
        kind: 'wrong',
        what,
        todo: `Its newest good backup stood until ${newest.at.slice(0, 16).replace('T', ', ')} UTC and can take its place.`,
        mend: { kind: 'document', name },
      },
    };
  }
}

/** What no single file shows. With a file missing, what names it is no fault. */
function ofWhole(documents: ReadonlyMap<DocumentName, object>, partial: boolean): Finding[] {
  const reader: Reader = {
    read: (name) => (documents.get(name) ?? null) as never,
    names: (kind) => [...documents.keys()].filter((name) => kindOf(name) === kind),
  };
  const findings: Finding[] = [];
  atOnce(
    crossChecked(
      everythingOf(reader),
      (field, index, why) =>
        findings.push({
          kind: 'wrong',
          what: `Of the ${field}, number ${index + 1} does not fit the rest: ${why}.`,
          todo: 'Settings, Backups shows earlier states of the record.',
        }),
      partial,
    ),
  );
  return findings;
}

async function ofBackups(backups: DiskBackups): Promise<Finding[]> {
  const { count, unreadable } = await backups.tried();
  if (unreadable.length === 0) return [];
  return [
    {
      kind: 'note',
      what: `${unreadable.length} of ${count} backups cannot be read: ${unreadable.slice(0, 3).join(', ')}${unreadable.length > 3 ? ', …' : ''}. They are passed over.`,
    },
  ];
}
