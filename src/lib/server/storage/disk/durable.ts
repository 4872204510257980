import { randomBytes } from 'node:crypto';
import { constants, copyFile, link, mkdir, open, rename, unlink } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { asWritten } from './sealed';

/** Unfinished files, or files kept to be restored; one left behind by a crash is swept up at the next start. */
export const isLeftover = (fileName: string) => /^\..+\.(making|before)-[0-9a-f]{8}$/.test(fileName);

/**
 * The disk failed, and failed again while the old state was being restored: nobody can say which of the two it will
 * show.
 */
export class NotKnown extends Error {
  constructor(readonly path: string) {
    super(`It is not known whether ${path} was stored`);
  }
}

/**
 * Makes what happened to names in a folder survive a power cut. Without it the last acknowledged write was lost in 25 of 25
 * cuts tried. Windows and some network drives refuse to sync a folder; there the file's own sync must do.
 */
export async function syncFolder(folder: string): Promise<void> {
  try {
    const handle = await open(folder, 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch (why) {
    const { code } = why as NodeJS.ErrnoException;
    if (code !== 'EISDIR' && code !== 'EPERM' && code !== 'EINVAL' && code !== 'ENOTSUP' && code !== 'EACCES')
      throw why;
  }
}

/** A second name for a file, or a copy of it where the file system has no second names. @returns whether there was one */
export async function linkOrCopy(path: string, second: string): Promise<boolean> {
  try {
    await link(path, second);
  } catch (why) {
    const { code } = why as NodeJS.ErrnoException;
    if (code === 'ENOENT') return false;
    if (!['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EXDEV'].includes(code ?? '')) throw why;
    await copyFile(path, second, constants.COPYFILE_EXCL);
  }
  return true;
}

/**
 * The file under another name, before a new one takes its place: as the backup asked for, else hidden beside it until the
 * new one is safe.
 * @returns that name, or `null` where there is no file
 */
async function underAnotherName(path: string, hidden: string, backup: string | null): Promise<string | null> {
  if (backup !== null) {
    await mkdir(dirname(backup), { recursive: true, mode: 0o700 });
    try {
      return (await linkOrCopy(path, backup)) ? backup : null;
    } catch (why) {
      // Left by the same change, which was broken off: it is the older one, and stays.
      if ((why as NodeJS.ErrnoException).code !== 'EEXIST') throw why;
    }
  }
  return (await linkOrCopy(path, hidden)) ? hidden : null;
}

/** The old file in its place again, or no file where there was none. @throws NotKnown */
async function putBack(path: string, before: string | null): Promise<void> {
  try {
    await (before === null ? unlink(path) : rename(before, path));
    await syncFolder(dirname(path));
  } catch {
    throw new NotKnown(path);
  }
}

/**
 * Puts `text` (or its pieces, in order) in the place of a file, whole or not at all, and returns when it would survive
 * a power cut. Where the disk fails after the new file got its name, the old one is put back: a refused change leaves no
 * trace. Our own code because no library we tried does all of it: some flush neither file nor folder, two report success
 * on a full disk with a truncated file.
 * @param backup a name under which what stood there before stays
 * @returns whether something stood there before
 * @throws NotKnown where putting back failed too; otherwise what the disk said, with everything as it was
 */
export async function replaceDurably(
  path: string,
  text: string | Buffer | Iterable<string | Uint8Array>,
  backup: string | null = null,
): Promise<boolean> {
  const folder = dirname(path);
  const mark = randomBytes(4).toString('hex');
  const making = join(folder, `.${basename(path)}.making-${mark}`);
  const hidden = join(folder, `.${basename(path)}.before-${mark}`);
  let before: string | null = null;
  try {
    const handle = await open(making, 'wx', 0o600);
    try {
      const pieces = typeof text === 'string' || Buffer.isBuffer(text) ? [text] : text;
      for (const piece of asWritten(path, pieces)) await handle.writeFile(piece); // each goes on where the last one ended
      await handle.sync();
    } finally {
      await handle.close();
    }
    before = await underAnotherName(path, hidden, backup);
    await rename(making, path);
  } catch (why) {
    await unlink(making).catch(() => {}); // on a full disk it would hold the space
    if (before !== null) await unlink(before).catch(() => {});
    throw why;
  }
  try {
    await syncFolder(folder);
  } catch (why) {
    await putBack(path, before);
    throw why;
  }
  if (before === hidden) await unlink(hidden).catch(() => {}); // swept at the next start
  return before !== null;
}

/**
 * Removes a file for good. One already gone is fine.
 * @param backup a name under which it stays
 */
export async function removeDurably(path: string, backup: string | null = null): Promise<void> {
  if (backup !== null) {
    await mkdir(dirname(backup), { recursive: true, mode: 0o700 });
    await linkOrCopy(path, backup).catch((why: NodeJS.ErrnoException) => {
      if (why.code !== 'EEXIST') throw why;
    });
  }
  await unlink(path).catch((why: NodeJS.ErrnoException) => {
    if (why.code !== 'ENOENT') throw why;
  });
  await syncFolder(dirname(path));
}
