import { constants, copyFile, readdir, readFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { replaceDurably } from './durable';
import { asRead, isSealed } from './sealed';

/** A moment as part of a file name. */
export const stampOf = (moment: Date) => moment.toISOString().replaceAll(/[:.]/g, '-');

/**
 * Copies a file that cannot be read to a name beside it, once: a server started again and again must not fill the disk.
 * @returns the path of the copy
 */
export async function putAside(path: string): Promise<string> {
  const folder = dirname(path);
  const content = await readFile(path);
  const opened = await openedIn(path);
  for (const name of await readdir(folder)) {
    const copy = join(folder, name);
    if (name.startsWith(`${basename(path)}.unreadable-`) && (await openedIn(copy)).equals(opened)) return copy;
  }
  const copy = `${path}.unreadable-${stampOf(new Date())}`;
  if (isSealed(content)) await copyFile(path, copy, constants.COPYFILE_EXCL);
  else await replaceDurably(copy, content);
  return copy;
}

/** What is in a file, as it stands where it does not open. */
async function openedIn(path: string): Promise<Buffer> {
  const content = await readFile(path);
  try {
    return asRead(path, content);
  } catch {
    return content;
  }
}

/** Copies of what could not be read, in the data folder and the folders of its documents. */
export async function asideIn(folders: readonly string[]): Promise<string[]> {
  const found: string[] = [];
  for (const folder of folders)
    for (const name of await readdir(folder))
      if (/\.(unreadable|broken)-\d{4}-/.test(name)) found.push(join(folder, name));
  return found.sort();
}
