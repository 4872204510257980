import { readdir, stat, statfs } from 'node:fs/promises';
import { join } from 'node:path';
import { isDocumentName, type DocumentName } from '../storage/documents';
import { isLeftover } from '../storage/disk/durable';
import { fileOf, foldersIn } from '../storage/disk/folder';
import { wholeJournal } from '../storage/disk/journal';
import { heldBy, isAlive, lockName, readOwner } from '../storage/disk/owner.js';
import { asideIn } from '../storage/disk/put-aside';
import type { Finding } from './finding';

const OTHERS_MAY = 0o077;

export function ofMode(folder: string, mode: number): Finding[] {
  if (process.platform === 'win32' || (mode & OTHERS_MAY) === 0) return [];
  return [
    {
      kind: 'wrong',
      what: `Other accounts of this computer may open ${folder}.`,
      todo: 'Take that right from them.',
      mend: { kind: 'mode' },
    },
  ];
}

export function ofOwner(folder: string): { findings: Finding[]; inUse: boolean } {
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

export async function ofSpace(folder: string): Promise<Finding[]> {
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

export async function ofJournal(folder: string): Promise<Finding[]> {
  const journal = await wholeJournal(folder);
  if (journal === 'none') return [];
  if (journal === 'closed') return [{ kind: 'note', what: 'A change waits in journal.json, which is encrypted.' }];
  return [
    journal === 'whole'
      ? { kind: 'note', what: 'A change that was stored waits in journal.json. The next start puts it in its files.' }
      : {
          kind: 'note',
          what: 'journal.json holds a change that was broken off before it was stored. The next start puts it aside.',
        },
  ];
}

export async function ofLeftovers(folder: string): Promise<Finding[]> {
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

export async function standingDocuments(folder: string): Promise<DocumentName[]> {
  const names: DocumentName[] = [];
  for (const each of foldersIn(folder))
    for (const file of await readdir(each).catch(() => [] as string[])) {
      const name = `${each === folder ? '' : `${each.slice(folder.length + 1)}/`}${file.replace(/\.json$/, '')}`;
      if (file.endsWith('.json') && isDocumentName(name)) names.push(name);
    }
  return names;
}
