import { lstat, readdir, stat, statfs } from 'node:fs/promises';
import { join } from 'node:path';
import { isDocumentName, kindOf, type DocumentName } from '../storage/documents';
import { crossChecked } from '../storage/everything-schema';
import { DiskBackups } from '../storage/disk/backups';
import { readContents } from '../storage/disk/contents';
import { fromText, NewerVersion, type Versions } from '../storage/disk/document-text';
import { isLeftover } from '../storage/disk/durable';
import { fileOf, foldersIn } from '../storage/disk/folder';
import { wholeJournal } from '../storage/disk/journal';
import { heldBy, isAlive, lockName, readOwner } from '../storage/disk/owner.js';
import { asideIn } from '../storage/disk/put-aside';
import { readText } from '../storage/disk/text-file';
import { StorageError } from '../storage/port';
import type { Reader } from '../storage/shelf';
import { everythingOf } from '../storage/verbs/everything';
import { holdsOf } from '../storage/verbs/damage';
import { atOnce } from '../../turns';

/**
 * One thing found in a data folder. `wrong`: something is lost or closed until it is put right; `note`: good to know. `mend`:
 * what `--mend` would do about it, where it can.
 */
export type Finding = { kind: 'wrong' | 'note'; what: string; todo?: string; mend?: Mend };
export type Mend =
  { kind: 'document'; name: DocumentName } | { kind: 'contents'; names: DocumentName[] } | { kind: 'mode' };

export type Examined = { findings: Finding[]; read: { documents: number; cases: number } | null; inUse: boolean };

const OTHERS_MAY = 0o077;

/** What stands in a data folder, by reading alone: nothing in it is changed, not even the lock. */
export async function examine(folder: string, versions: Versions): Promise<Examined> {
  const about = await lstat(folder).catch(() => null);
  if (!about) return { findings: [], read: null, inUse: false };
  if (!about.isDirectory())
    return {
      findings: [{ kind: 'wrong', what: `${folder} is not a folder.`, todo: 'Choose another with NEXT_TWENTY_DATA.' }],
      read: null,
      inUse: false,
    };
  const owner = ofOwner(folder);
  const findings = [
    ...(process.platform !== 'win32' && (about.mode & OTHERS_MAY) !== 0 ? [openToOthers(folder)] : []),
    ...owner.findings,
    ...(await ofSpace(folder)),
    ...(await ofJournal(folder)),
    ...(await ofLeftovers(folder)),
  ];
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
      todo: 'What stands in the folder can be listed anew.',
      ...(why.code === 'newer' ? {} : { mend: { kind: 'contents', names: standing } }),
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
  };
}

const openToOthers = (folder: string): Finding => ({
  kind: 'wrong',
  what: `Other accounts of this computer may open ${folder}.`,
  todo: 'Take that right from them.',
  mend: { kind: 'mode' },
});

function ofOwner(folder: string): { findings: Finding[]; inUse: boolean } {
  const path = join(folder, lockName);
  try {
    const owner = readOwner(path);
    if (!owner) return { findings: [], inUse: false };
    if (isAlive(owner))
      return {
        findings: [{ kind: 'note', what: `${heldBy(folder, owner)} What is read here may be changing this moment.` }],
        inUse: true,
      };
    return {
      findings: [{ kind: 'note', what: 'A server ended without closing the folder. The next start takes it over.' }],
      inUse: false,
    };
  } catch {
    return {
      findings: [
        { kind: 'wrong', what: `${path} cannot be read.`, todo: 'If no server runs, delete it and start again.' },
      ],
      inUse: true,
    };
  }
}

/** Room for at least so many times the record, or something is said. */
const ROOM_TIMES = 5;

async function ofSpace(folder: string): Promise<Finding[]> {
  const { bavail, bsize } = await statfs(folder);
  let size = 0;
  for (const name of await standingDocuments(folder)) size += (await stat(fileOf(folder, name))).size;
  const free = bavail * bsize;
  if (free > ROOM_TIMES * size + 1e6) return [];
  const megabytes = (bytes: number) => Math.round(bytes / 1e6);
  return [
    {
      kind: 'wrong',
      what: `The disk has ${megabytes(free)} MB left; the record takes ${megabytes(size)} MB.`,
      todo: 'Make room: a change that finds none is refused.',
    },
  ];
}

async function ofJournal(folder: string): Promise<Finding[]> {
  const journal = await wholeJournal(folder);
  if (journal === 'none') return [];
  return [
    journal === 'whole'
      ? { kind: 'note', what: 'A change that was stored waits in journal.json. The next start puts it in its files.' }
      : {
          kind: 'note',
          what: 'journal.json holds a change that was broken off before it was stored. The next start puts it aside.',
        },
  ];
}

async function ofLeftovers(folder: string): Promise<Finding[]> {
  let leftovers = 0;
  const folders: string[] = [];
  for (const each of foldersIn(folder)) {
    const files = await readdir(each).catch(() => null);
    if (!files) continue;
    folders.push(each);
    leftovers += files.filter(isLeftover).length;
  }
  const aside = await asideIn(folders);
  return [
    ...(leftovers > 0
      ? [{ kind: 'note' as const, what: `${leftovers} unfinished files of a crash. The next start sweeps them up.` }]
      : []),
    ...aside.map((path) => ({
      kind: 'note' as const,
      what: `${path} is a copy of what could not be read. Delete it once nobody needs it; Settings, Backups does it too.`,
    })),
  ];
}

async function standingDocuments(folder: string): Promise<DocumentName[]> {
  const names: DocumentName[] = [];
  for (const each of foldersIn(folder))
    for (const file of await readdir(each).catch(() => [] as string[])) {
      const name = `${each === folder ? '' : `${each.slice(folder.length + 1)}/`}${file.replace(/\.json$/, '')}`;
      if (file.endsWith('.json') && isDocumentName(name)) names.push(name);
    }
  return names;
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
