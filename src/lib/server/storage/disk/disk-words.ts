import { StorageError } from '../port';

/** What a code of the operating system means to a person, without "nothing was changed": that depends on where it came. */
const WORDS: Readonly<Record<string, string>> = {
  ENOSPC: 'The disk is full',
  EDQUOT: 'Your share of the disk is full',
  EROFS: 'The disk can only be read, not written',
  EACCES: 'This program is not allowed to write there',
  EPERM: 'This program is not allowed to write there',
  EISDIR: 'There is a folder where a file should be',
  ENOTDIR: 'There is a file where a folder should be',
  EEXIST: 'There is a file where a folder should be',
  EIO: 'The disk reported an error',
  ENOENT: 'The folder, or the drive it is on, is no longer there',
  EMFILE: 'This computer has too many files open',
  ENFILE: 'This computer has too many files open',
};

/** What the disk said, without a full stop. */
export const saidOf = (why: unknown): string => {
  const { code, path } = why as NodeJS.ErrnoException;
  return `${WORDS[code ?? ''] ?? 'The disk refused'} (${code}${path ? `, ${path}` : ''})`;
};

const isOfDisk = (why: unknown): why is NodeJS.ErrnoException =>
  !(why instanceof StorageError) && typeof (why as NodeJS.ErrnoException | null)?.code === 'string';

/** A change the disk refused, as a sentence; any other error comes back as it is. */
export const refusedChange = (why: unknown, folder: string): unknown =>
  isOfDisk(why)
    ? new StorageError(
        'disk',
        `${saidOf(why)}. Nothing was changed in ${folder}; what was saved before is still there.`,
      )
    : why;

/** A folder that cannot be opened, as a sentence with what to do; any other error as it is. */
export const refusedStart = (why: unknown, folder: string): unknown =>
  isOfDisk(why)
    ? new StorageError(
        'disk',
        `The data folder ${folder} cannot be opened. ${saidOf(why)}. Put that right and start again, or choose another folder with NEXT_TWENTY_DATA.`,
      )
    : why;
