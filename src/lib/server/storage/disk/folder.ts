import { mkdir, readdir, unlink } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { isDocumentName, type DocumentName } from '../documents';
import { isLeftover, syncFolder } from './durable';

const subfolders = ['cases', 'reflections', 'reference', 'imports'];

export const fileOf = (folder: string, name: DocumentName | 'contents') => join(folder, `${name}.json`);

export const foldersIn = (folder: string): string[] => ['', ...subfolders].map((sub) => join(folder, sub));

/** Makes a folder with those above it, each with its own entry made durable: a lost folder takes its files with it. */
export async function makeFolder(folder: string): Promise<void> {
  const first = await mkdir(folder, { recursive: true, mode: 0o700 });
  if (first === undefined) return;
  for (let made = folder; made.length >= first.length; made = dirname(made)) await syncFolder(dirname(made));
}

/** Makes the data folder, readable by its owner alone. A folder already there keeps its mode: it may not be ours to set. */
export async function makeFolders(folder: string): Promise<void> {
  await makeFolder(folder);
  for (const each of subfolders) await makeFolder(join(folder, each));
}

/** Names of the documents in the folder, sweeping up files that a crash left unfinished. */
export async function standingIn(folder: string): Promise<DocumentName[]> {
  const names: DocumentName[] = [];
  for (const sub of ['', ...subfolders])
    for (const file of await readdir(join(folder, sub))) {
      if (isLeftover(file)) await unlink(join(folder, sub, file));
      const name = `${sub && `${sub}/`}${file.replace(/\.json$/, '')}`;
      if (file.endsWith('.json') && isDocumentName(name)) names.push(name);
    }
  return names;
}
