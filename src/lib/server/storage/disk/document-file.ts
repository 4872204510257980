import { lstat } from 'node:fs/promises';
import type { Adapter } from 'lowdb';
import type { DocumentKind } from '../documents';
import { StorageError } from '../port';
import { fromText, NewerVersion, toText, type Versions } from './document-text';
import { removeDurably, replaceDurably } from './durable';
import { putAside } from './put-aside';
import { readText } from './text-file';

/** Enough to tell that a file is still the one last read or written here. */
const identityOf = async (path: string): Promise<string | null> => {
  try {
    const { ino, size, mtimeNs } = await lstat(path, { bigint: true });
    return `${ino}/${size}/${mtimeNs}`;
  } catch (why) {
    if ((why as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw why;
  }
};

const reasonOf = (why: unknown) => (why instanceof Error ? why.message : String(why));

/**
 * One document on disk, as lowdb's adapter. lowdb's own adapter is not used: it never flushes, writes over what it could
 * not read, and lets two processes erase each other.
 */
export class DocumentFile implements Adapter<object | null> {
  #seen: string | null = null;
  /** What stands on disk, where it could be read. */
  #standing: object | null = null;
  /** Where the next write leaves what stood there before; `null`: nowhere. */
  leaving: string | null = null;

  constructor(
    readonly path: string,
    private readonly kind: DocumentKind,
    private readonly versions: Versions,
  ) {}

  /** @throws StorageError `unreadable` (after putting a copy aside) or `newer`; the file itself is not touched */
  async read(): Promise<object | null> {
    this.#seen = await identityOf(this.path);
    if (this.#seen === null) return null;
    try {
      if (!(await lstat(this.path)).isFile()) throw new Error('it is not an ordinary file; writing would cut a link');
      return (this.#standing = fromText(await readText(this.path), this.kind, this.versions));
    } catch (why) {
      if (why instanceof NewerVersion)
        throw new StorageError(
          'newer',
          `${this.path} was written by a later version of this program (${why.version}; this one knows ${this.versions.schemaVersion}). It has not been touched. Start the later version.`,
        );
      throw new StorageError('unreadable', `${this.path} cannot be read: ${reasonOf(why)}. ${await this.#saidAside()}`);
    }
  }

  get standing(): object | null {
    return this.#standing;
  }

  /** @throws StorageError `changed-outside` when somebody edited, replaced or made the file since it was last seen here */
  async checkUnchanged(): Promise<void> {
    if ((await identityOf(this.path)) === this.#seen) return;
    throw new StorageError(
      'changed-outside',
      `${this.path} was changed by something else while this program was running. Nothing was written over it; stop this program and start it again to read what is there.`,
    );
  }

  /** A copy beside the file, where there is a file: before something else takes its place. */
  async keepCopy(): Promise<void> {
    if (this.#seen !== null) await putAside(this.path);
  }

  async write(document: object | null): Promise<void> {
    if (document === null) return this.remove();
    await this.checkUnchanged();
    await replaceDurably(this.path, toText(document, this.versions), this.leaving);
    this.#standing = document;
    this.#seen = await identityOf(this.path);
  }

  async remove(): Promise<void> {
    await this.checkUnchanged();
    try {
      await removeDurably(this.path, this.leaving);
      this.#standing = null;
    } finally {
      // Gone even where the folder's sync failed: removing it again must not be mistaken for somebody else's change.
      this.#seen = await identityOf(this.path);
    }
  }

  async #saidAside(): Promise<string> {
    const left = 'The file stays as it is and nothing is written to it.';
    try {
      return `${left} A copy is at ${await putAside(this.path)}.`;
    } catch (why) {
      return `${left} A copy could not be made: ${reasonOf(why)}.`;
    }
  }
}
