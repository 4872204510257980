import { Low } from 'lowdb';
import { setImmediate } from 'node:timers/promises';
import { kindOf, type DocumentName } from '../documents';
import { StorageError } from '../port';
import type { Changes, Keeper } from '../shelf';
import { contentsPath, contentsText, readContents } from './contents';
import { refusedChange } from './disk-words';
import { DocumentFile } from './document-file';
import { toText, type Versions } from './document-text';
import { NotKnown, removeDurably, replaceDurably } from './durable';
import { fileOf, standingIn } from './folder';
import { readJournal, removeJournal, writeJournal, type FileTexts } from './journal';
import type { Lock } from './lock';

type Held = { file: DocumentFile; low: Low<object | null>; refused: StorageError | null };

/**
 * Holds the documents of a record, each as lowdb's data behind our own durable adapter: the only copy in memory. lowdb puts
 * new data in place before it is written; the shelf keeps readers from it until the write is durable.
 */
export class DiskKeeper implements Keeper {
  readonly #held = new Map<DocumentName, Held>();
  #names = new Set<DocumentName>();
  /** Acknowledged by its journal, and not yet in every file. */
  #unfinished: Changes | null = null;
  /** The disk failed in a way that leaves its contents uncertain: nothing more is written on that basis. */
  #notKnown: StorageError | null = null;

  private constructor(
    readonly place: string,
    private readonly lock: Lock,
    private readonly versions: Versions,
  ) {}

  /** @throws StorageError `missing`, `newer` or `unreadable` where nothing can be told of the record at all */
  static async open(place: string, lock: Lock, versions: Versions): Promise<DiskKeeper> {
    const keeper = new DiskKeeper(place, lock, versions);
    await keeper.#replay();
    keeper.#names = new Set(await readContents(place, await standingIn(place), versions));
    for (const name of keeper.#names) await keeper.#load(name);
    return keeper;
  }

  document(name: DocumentName) {
    const held = this.#names.has(name) ? this.#held.get(name) : undefined;
    return held ? (held.refused ?? held.low.data) : null;
  }

  names() {
    return this.#names;
  }

  async keep(changes: Changes): Promise<void> {
    if (this.#notKnown) throw this.#notKnown;
    try {
      await this.lock.check();
      await this.#finish();
      for (const name of changes.keys()) {
        const { file, refused } = this.#at(name);
        await file.checkUnchanged();
        if (refused) await file.keepCopy(); // it is replaced on purpose, and what could not be read may be wanted yet
      }
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
      for (const [name, document] of changes) {
        const held = this.#at(name);
        held.low.data = document;
        held.refused = null;
      }
      this.#unfinished = changes;
    } catch (why) {
      throw this.#refusal(why);
    }
    // The journal is the acknowledgement: a file that cannot be written now is written before the next change, or at start.
    await this.#finish().catch((why: unknown) => console.error('A saved change waits in journal.json:', why));
  }

  async close(): Promise<void> {
    await this.lock.release();
  }

  #at(name: DocumentName): Held {
    let held = this.#held.get(name);
    if (!held) {
      const file = new DocumentFile(fileOf(this.place, name), kindOf(name), this.versions);
      this.#held.set(name, (held = { file, low: new Low<object | null>(file, null), refused: null }));
    }
    return held;
  }

  async #load(name: DocumentName): Promise<void> {
    const held = this.#at(name);
    try {
      await held.low.read();
      if (held.low.data) return;
      held.refused = new StorageError(
        'missing',
        `${held.file.path} is missing, though this record should have it. Nothing is written in its place. Bring it back from a copy and start again.`,
      );
    } catch (why) {
      if (!(why instanceof StorageError)) throw why;
      held.refused = why;
    }
  }

  async #write(name: DocumentName, document: object): Promise<void> {
    const held = this.#at(name);
    const { low } = held;
    const before = low.data;
    low.data = document;
    try {
      await low.write();
      held.refused = null;
    } catch (why) {
      low.data = before;
      throw why;
    }
  }

  /** Brings every file to what an acknowledged journal says, then lets the journal go. */
  async #finish(): Promise<void> {
    if (!this.#unfinished) return;
    for (const [name, document] of this.#unfinished) {
      const { low, file } = this.#at(name);
      await (document ? low.write() : file.remove()); // lowdb writes no empty document
    }
    await replaceDurably(contentsPath(this.place), contentsText(this.#names, this.versions));
    await removeJournal(this.place);
    this.#unfinished = null;
  }

  /** At start: a change that a crash left half done is redone from the beginning. */
  async #replay(): Promise<void> {
    const texts: FileTexts | null = await readJournal(this.place, this.versions.schemaVersion);
    if (!texts) return;
    for (const [name, text] of texts) {
      const path = fileOf(this.place, name);
      await (text === null ? removeDurably(path) : replaceDurably(path, text));
    }
    await removeJournal(this.place);
  }

  #refusal(why: unknown): unknown {
    if (!(why instanceof NotKnown)) return refusedChange(why, this.place);
    return (this.#notKnown = new StorageError(
      'disk',
      `The disk failed twice while a change was written to ${this.place}, so it is not known whether that change was stored. Nothing more is written. Start this program again: it then shows what is there.`,
    ));
  }
}
