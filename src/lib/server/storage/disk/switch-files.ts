import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { isLeftover, replaceDurably } from './durable';
import { asRead, isSealed, neverSealed, useKey, type DataKey } from './sealed';

/** Every file of a record: documents, contents, journal, imports, drafts, backups, and copies that were put aside. */
export async function filesIn(folder: string, inside = ''): Promise<string[]> {
  const found: string[] = [];
  for (const entry of await readdir(join(folder, inside), { withFileTypes: true })) {
    const name = inside === '' ? entry.name : `${inside}/${entry.name}`;
    if (entry.isDirectory()) found.push(...(await filesIn(folder, name)));
    else if (
      entry.isFile() &&
      /\.json(\.(unreadable|broken)-.*)?$/.test(name) &&
      !isLeftover(entry.name) &&
      !neverSealed(name)
    )
      found.push(name);
  }
  return found;
}

/**
 * Brings every file of a record to the form it is to have, one at a time, each durably in the place of the old one and read
 * back before the next: at any moment each file is there once, whole, in one form or the other, and both can be read.
 * Broken off, it goes on from where it was. What cannot be read stays as it is.
 * @returns how many files could not be turned
 */
export async function switchFiles(folder: string, data: DataKey, to: 'sealed' | 'plain'): Promise<number> {
  useKey(folder, data, to === 'sealed');
  let left = 0;
  for (const name of await filesIn(folder)) {
    const path = join(folder, name);
    const content = await readFile(path);
    if (isSealed(content) === (to === 'sealed')) continue;
    let plain: Buffer;
    try {
      plain = asRead(path, content);
    } catch {
      left += 1;
      continue;
    }
    await replaceDurably(path, plain);
    const back = await readFile(path);
    if (isSealed(back) !== (to === 'sealed') || !asRead(path, back).equals(plain))
      throw new Error(`${path} was not stored as it should be`);
  }
  return left;
}
