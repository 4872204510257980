import { Low } from 'lowdb';
import { setImmediate } from 'node:timers/promises';
import { kindOf, type DocumentName, type Documents } from '../documents';
import { StorageError } from '../port';
import type { Changes, Forgotten, Keeper } from '../shelf';
import { DiskBackups, holdsCases, isCounted, leavesBackup } from './backups';
import { contentsPath, contentsText, readContents } from './contents';
import { refusedChange } from './disk-words';
import { DocumentFile } from './document-file';
import { toText, type Versions } from './document-text';
import { NotKnown, removeDurably, replaceDurably } from './durable';
import { fileOf, standingIn } from './folder';
import { readJournal, removeJournal, writeJournal } from './journal';
import type { Lock } from './lock';
import { readText } from './text-file';

/** What stands in a file that a change is about to replace, as far as it matters whether it leaves a backup. */
function shapeOf(text: string): object {
  try {
    return Object(JSON.parse(text)) as object;
  } catch {
    return { state: 'held' }; // nothing that could be brought back
  }
}

/** Holds what is in memory of a change that its journal has acknowledged; `at`: the moment its backups are stamped with. */
type Unfinished = { changes: Map<DocumentName, object | null>; at: number; forgotten: Forgotten; names: boolean };

const KEPT_MONTHS = 12;

type Held = { file: DocumentFile; low: Low<object | null>; refused: StorageError | null };

/**
 * Holds the documents of a record, each as lowdb's data behind our own durable adapter: the only copy in memory. lowdb puts
 * new data in place before it is written; the shelf keeps readers from it until the write is durable.
 */
export class DiskKeeper implements Keeper {
  readonly #held = new Map<DocumentName, Held>();
  #names = new Set<DocumentName>();
  /** Acknowledged by its journal, and not yet in every file. */
  #unfinished: Unfinished | null = null;
  #thinned = '';
  /** The disk failed in a way that leaves its contents uncertain: nothing more is written on that basis. */
  #notKnown: StorageError | null = null;

  private constructor(
    readonly place: string,
    private readonly lock: Lock,
    private readonly versions: Versions,
    readonly backups: DiskBackups,
  ) {}

  /** @throws StorageError `missing`, `newer` or `unreadable` where nothing can be told of the record at all */
  static async open(place: string, lock: Lock, versions: Versions): Promise<DiskKeeper> {
    const keeper = new DiskKeeper(place, lock, versions, await DiskBackups.open(place, versions));
    await keeper.#replay();
    keeper.#names = new Set(await readContents(place, await standingIn(place), versions));
    for (const name of keeper.#names) await keeper.#load(name);
    await keeper.#thin([]);
    return keeper;
  }

  document(name: DocumentName) {
    const held = this.#names.has(name) ? this.#held.get(name) : undefined;
    return held ? (held.refused ?? held.low.data) : null;
  }

  names() {
    return this.#names;
  }

  async keep(changes: Changes, forgotten: Forgotten = new Map()): Promise<void> {
    if (this.#notKnown) throw this.#notKnown;
    try {
      await this.lock.check();
      await this.#finish();
      for (const name of changes.keys()) {
        const { file, refused } = this.#at(name);
        await file.checkUnchanged();
        if (refused) await file.keepCopy(); // it is replaced on purpose, and what could not be read may be wanted yet
      }
      // First of all: a crash leaves a case without backups then, not a backup of a case that is gone.
      if (forgotten.size > 0) await this.backups.forget(forgotten);
      const names = new Set(this.#names);
      for (const [name, document] of changes) {
        if (document) names.add(name);
        else names.delete(name);
      }
      const one = changes.size === 1 && names.size === this.#names.size ? [...changes][0] : undefined;
      if (one?.[1]) {
        await this.#write(one[0], one[1], this.backups.moment(), forgotten);
        return await this.#thin(changes.keys());
      }

      const texts = new Map<DocumentName | 'contents', string | null>();
      for (const [name, document] of changes) {
        texts.set(name, document && toText(document, this.versions));
        await setImmediate(); // a long import changes many files, and others are answered between them
      }
      texts.set('contents', contentsText(names, this.versions));
      await writeJournal(this.place, texts, this.versions.schemaVersion, forgotten);
      const backed = [...changes].some(([name, document]) => !!document !== this.#names.has(name) && isCounted(name));
      this.#names = names;
      for (const [name, document] of changes) {
        const held = this.#at(name);
        held.low.data = document;
        held.refused = null;
      }
      this.#unfinished = { changes: new Map(changes), at: this.backups.moment(), forgotten, names: backed };
    } catch (why) {
      throw this.#refusal(why);
    }
    // The journal is the acknowledgement: a file that cannot be written now is written before the next change, or at start.
    await this.#finish().catch((why: unknown) => console.error('A saved change waits in journal.json:', why));
    await this.#thin(changes.keys());
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

  async #write(name: DocumentName, document: object, at: number, forgotten: Forgotten): Promise<void> {
    const held = this.#at(name);
    const { low } = held;
    const before = low.data;
    low.data = document;
    try {
      await this.#leaving(name, at, forgotten, () => low.write());
      held.refused = null;
    } catch (why) {
      low.data = before;
      throw why;
    }
  }

  /** Writes a file, leaving what stood there before as a backup of that moment. */
  async #leaving(name: DocumentName, at: number, forgotten: Forgotten, write: () => Promise<void>): Promise<void> {
    const { file } = this.#at(name);
    // Less the cases that are being erased, what stands there is what will stand there: nothing is lost without it.
    const leaves = file.standing && leavesBackup(name, file.standing) && !(forgotten.size > 0 && holdsCases(name));
    file.leaving = leaves ? this.backups.pathOf(name, at) : null;
    const left = file.leaving !== null;
    try {
      await write();
    } finally {
      file.leaving = null;
    }
    if (left) this.backups.left(name, at);
  }

  /** Brings every file to what an acknowledged journal says, then lets the journal go. */
  async #finish(): Promise<void> {
    if (!this.#unfinished) return;
    const { changes, at, forgotten, names } = this.#unfinished;
    for (const [name, document] of changes) {
      const { low, file } = this.#at(name);
      // lowdb writes no empty document
      await this.#leaving(name, at, forgotten, () => (document ? low.write() : file.remove()));
      changes.delete(name); // a file that is there is not written again where a later one fails
    }
    const path = contentsPath(this.place);
    const left = names ? this.backups.pathOf('contents', at) : null;
    const stood = await replaceDurably(path, contentsText(this.#names, this.versions), left);
    if (left !== null && stood) this.backups.left('contents', at);
    await removeJournal(this.place);
    this.#unfinished = null;
  }

  /** Earlier versions that need not be kept any longer go: of these documents, and once a day of all. */
  async #thin(names: Iterable<DocumentName>): Promise<void> {
    const profile = this.document('profile');
    const months =
      profile && 'profile' in profile ? (profile as Documents['profile']).profile.backupMonths : KEPT_MONTHS;
    const today = `${new Date().toDateString()}, ${months} months`;
    await (today === this.#thinned ? this.backups.thin(months, names) : this.backups.thin(months));
    this.#thinned = today;
  }

  /** At start: a change that a crash left half done is redone from the beginning. */
  async #replay(): Promise<void> {
    const journal = await readJournal(this.place, this.versions.schemaVersion);
    if (!journal) return;
    const at = this.backups.momentAgain(journal.began);
    if (journal.forgotten.size > 0) await this.backups.forget(journal.forgotten);
    for (const [name, text] of journal.texts) {
      const path = fileOf(this.place, name);
      const before = await readText(path).catch(() => null);
      const leaves =
        before !== null &&
        before !== text &&
        leavesBackup(name, shapeOf(before)) &&
        !(journal.forgotten.size > 0 && holdsCases(name));
      const backup = leaves ? this.backups.pathOf(name, at) : null;
      await (text === null ? removeDurably(path, backup) : replaceDurably(path, text, backup));
      if (leaves) this.backups.left(name, at);
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
