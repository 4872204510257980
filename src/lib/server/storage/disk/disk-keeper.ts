import { Low } from 'lowdb';
import { setImmediate } from 'node:timers/promises';
import { kindOf, type DocumentName } from '../documents';
import { StorageError } from '../port';
import type { Changes, Keeper, Loaded } from '../shelf';
import { contentsPath, contentsText, readContents } from './contents';
import { DocumentFile } from './document-file';
import { toText, type Versions } from './document-text';
import { removeDurably, replaceDurably } from './durable';
import { fileOf, standingIn } from './folder';
import { readJournal, removeJournal, writeJournal, type FileTexts } from './journal';
import type { Lock } from './lock';

type Kept = { file: DocumentFile; low: Low<object | null> };

/** Keeps the documents of a shelf in a folder: one lowdb document with our own durable adapter for each. */
export class DiskKeeper implements Keeper {
  readonly #kept = new Map<DocumentName, Kept>();
  #names = new Set<DocumentName>();
  /** Acknowledged by its journal, and not yet in every file. */
  #unfinished: Changes | null = null;

  constructor(
    readonly place: string,
    private readonly lock: Lock,
    private readonly versions: Versions,
  ) {}

  async load(): Promise<Loaded> {
    await this.#replay();
    const standing = await standingIn(this.place);
    this.#names = new Set(await readContents(this.place, standing, this.versions));
    const loaded = new Map<DocumentName, object | StorageError>();
    for (const name of this.#names) loaded.set(name, await this.#load(name));
    return loaded;
  }

  async keep(changes: Changes): Promise<void> {
    try {
      await this.lock.check();
      await this.#finish();
      for (const name of changes.keys()) await this.#at(name).file.checkUnchanged();
      const names = new Set(this.#names);
      for (const [name, document] of changes) {
        if (document) names.add(name);
        else names.delete(name);
      }
      const one = changes.size === 1 && names.size === this.#names.size ? [...changes][0] : undefined;
      if (one?.[1]) return await this.#write(one[0], one[1]);

      const texts = new Map<DocumentName | 'contents', string | null>();
      for (const [name, document] of changes) {
        texts.set(name, document && toText(document, this.versions));
        await setImmediate(); // a long import changes many files, and others are answered between them
      }
      texts.set('contents', contentsText(names, this.versions));
      await writeJournal(this.place, texts, this.versions.schemaVersion);
      this.#names = names;
      this.#unfinished = changes;
    } catch (why) {
      throw refusalOf(why, this.place);
    }
    // The journal is the acknowledgement: a file that cannot be written now is written before the next change, or at start.
    await this.#finish().catch((why: unknown) => console.error('A saved change waits in journal.json:', why));
  }

  async close(): Promise<void> {
    await this.lock.release();
  }

  #at(name: DocumentName): Kept {
    let kept = this.#kept.get(name);
    if (!kept) {
      const file = new DocumentFile(fileOf(this.place, name), kindOf(name), this.versions);
      this.#kept.set(name, (kept = { file, low: new Low<object | null>(file, null) }));
    }
    return kept;
  }

  async #load(name: DocumentName): Promise<object | StorageError> {
    const { low, file } = this.#at(name);
    try {
      await low.read();
    } catch (why) {
      if (why instanceof StorageError) return why;
      throw why;
    }
    if (low.data) return low.data;
    return new StorageError(
      'missing',
      `${file.path} is missing, though this record should have it. Nothing is written in its place. Bring it back from a copy and start again.`,
    );
  }

  /** lowdb's data follows the disk, never runs ahead of it. */
  async #write(name: DocumentName, document: object | null): Promise<void> {
    const { low, file } = this.#at(name);
    const before = low.data;
    low.data = document;
    try {
      await (document ? low.write() : file.remove()); // lowdb writes no empty document
    } catch (why) {
      low.data = before;
      throw why;
    }
  }

  /** Brings every file to what an acknowledged journal says, then lets the journal go. */
  async #finish(): Promise<void> {
    if (!this.#unfinished) return;
    for (const [name, document] of this.#unfinished) {
      await this.#write(name, document);
    }
    await replaceDurably(contentsPath(this.place), contentsText(this.#names, this.versions));
    await removeJournal(this.place);
    this.#unfinished = null;
  }

  /** At start: a change a crash left half done is done again from the beginning. */
  async #replay(): Promise<void> {
    const texts: FileTexts | null = await readJournal(this.place, this.versions.schemaVersion);
    if (!texts) return;
    for (const [name, text] of texts) {
      const path = fileOf(this.place, name);
      await (text === null ? removeDurably(path) : replaceDurably(path, text));
    }
    await removeJournal(this.place);
  }
}

const refusalOf = (why: unknown, place: string): unknown => {
  const { code } = why as NodeJS.ErrnoException;
  if (why instanceof StorageError || typeof code !== 'string') return why;
  const said =
    code === 'ENOSPC' || code === 'EDQUOT'
      ? 'The disk is full'
      : `The disk refused the write (${code}, ${(why as Error).message})`;
  return new StorageError('disk', `${said}. Nothing was changed in ${place}; what was saved before is still there.`);
};
