import { chmod, cp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { contentsPath, contentsText } from '../storage/disk/contents';
import type { Versions } from '../storage/disk/document-text';
import { replaceDurably } from '../storage/disk/durable';
import { lockName } from '../storage/disk/owner.js';
import { stampOf } from '../storage/disk/put-aside';
import { StorageError } from '../storage/port';
import { openDiskStore } from '../storage/open-disk';
import type { Finding } from './finding';

/**
 * Does what can be done about what was found, after the whole folder has been copied beside it.
 * @param now ISO instant
 * @returns a line for each thing done, or not done and why
 */
export async function mend(
  folder: string,
  findings: readonly Finding[],
  versions: Versions,
  now: string,
): Promise<{ copy: string; done: string[] }> {
  const copy = `${folder}-before-mending-${stampOf(new Date(now))}`;
  await cp(folder, copy, { recursive: true, preserveTimestamps: true, errorOnExist: true, force: false });
  await chmod(copy, 0o700);
  await rm(join(copy, lockName), { force: true }); // nobody owns the copy
  const done: string[] = [];
  const mends = findings.flatMap(({ mend: each }) => each ?? []);
  for (const each of mends)
    if (each.kind === 'mode') {
      await chmod(folder, 0o700);
      done.push('Only your account may open the folder now.');
    } else if (each.kind === 'contents') {
      await replaceDurably(contentsPath(folder), contentsText(each.names, versions));
      done.push(`contents.json names the ${each.names.length} files that stand in the folder.`);
    }
  const store = await openDiskStore(folder, now, versions);
  try {
    // One may have to wait for another: what a damaged file names is not known before that is right.
    let waiting = mends.flatMap((each) => (each.kind === 'document' ? [each.name] : []));
    for (let left = Infinity; waiting.length > 0 && waiting.length < left;) {
      left = waiting.length;
      const again: typeof waiting = [];
      for (const name of waiting)
        try {
          await store.replaceDamaged(name, 'backup');
          done.push(`${name}.json was brought back from its newest good backup.`);
        } catch (why) {
          if (!(why instanceof StorageError)) throw why;
          if (why.code === 'in-use') again.push(name);
          else done.push(`${name}.json was left as it is: ${why.message}`);
        }
      waiting = again;
    }
    for (const name of waiting) done.push(`${name}.json was left as it is: another file must be put right first.`);
  } finally {
    await store.close();
  }
  return { copy, done };
}
