import { type DocumentKind, type DocumentName, type Documents, kindOf } from './documents';
import { StorageError } from './port';
import { checkReadable } from './readable';

type Held = ReadonlyMap<DocumentName, object | StorageError | null>;
const noChanges: Held = new Map();

/** New contents by name; `null` removes the document. */
export type Changes = ReadonlyMap<DocumentName, object | null>;

/** Cases that are erased everywhere, by id, each with its code. */
export type Forgotten = ReadonlyMap<string, string>;

/** Earlier versions of the documents, where a keeper keeps them. */
export interface Backups {
  /** Moments (ISO) before which the whole record is known, newest first, and what was changed then. */
  moments(months: number): { at: string; names: readonly DocumentName[] }[];
  /**
   * What stood just before the change of a moment, of the documents that may differ from those of now; `null`: there was
   * none. @throws StorageError `unreadable` where it is not known which documents there were
   */
  before(at: string, current: Iterable<DocumentName>): Promise<Map<DocumentName, object | StorageError | null>>;
  /** The newest earlier version of a document that can be read, and the change before which it stood. */
  newestGood(name: DocumentName): Promise<{ at: string; document: object } | null>;
  /** Copies, kept for whoever can still get something out of them, of what could not be read. */
  setAside(): Promise<string[]>;
  dropSetAside(): Promise<void>;
}

/** Where the documents of a shelf are held, and what makes them durable: all that differs between the adapters. */
export interface Keeper {
  readonly place: string;
  /** A document as held, why it cannot be read (such a one is neither read nor written), or `null`. */
  document(name: DocumentName): object | StorageError | null;
  /** Names of the documents there should be, also of those that cannot be read. */
  names(): Iterable<DocumentName>;
  /**
   * All of these or none. Resolves when they are held and would survive a power cut.
   * @param forgotten cases of which no earlier version may stay
   */
  keep(changes: Changes, forgotten: Forgotten): Promise<void>;
  /** `null`: none are kept. */
  readonly backups: Backups | null;
  close(): Promise<void>;
}

/** Reading documents: from the shelf as acknowledged, or inside a change as it will be. */
export interface Reader {
  read<Name extends DocumentName>(name: Name): Documents[Name] | null;
  names(kind: DocumentKind): DocumentName[];
}

export interface Draft extends Reader {
  write<Name extends DocumentName>(name: Name, document: Documents[Name]): void;
  /** In the place of a document that could not be read, or `null` for none: only what repairs a record does this. */
  replace(name: DocumentName, document: object | null): void;
  remove(name: DocumentName): void;
  /** Nothing of this case stays, in no earlier version either. */
  forget(id: string, code: string): void;
}

/** Changes that go to the keeper together, and the callers who wait for them. */
class Batch {
  readonly changes = new Map<DocumentName, object | null>();
  readonly forgotten = new Map<string, string>();
  readonly done: Promise<void>;
  resolve!: () => void;
  reject!: (why: unknown) => void;
  constructor() {
    this.done = new Promise((resolve, reject) => Object.assign(this, { resolve, reject }));
    // Every caller gets the rejection through its own await; without one Node would call it unhandled.
    this.done.catch(() => {});
  }
}

/**
 * The documents of one record, held by the keeper. A change is worked out at once on a draft, joins the next write, and
 * is seen by readers and answered when that write is durable. While one write runs, later changes gather in the next: a
 * burst of autosaves costs two writes, and nobody waits for a state that is not theirs. When a write fails, the changes
 * built on it go with it, and each of their callers hears why.
 */
export class Shelf implements Reader {
  readonly place: string;
  readonly backups: Backups | null;
  /** Told of cases before they are erased; the change waits for it. */
  beforeForgetting: (gone: Forgotten) => Promise<void> = async () => {};
  /** Told of every change that is kept. */
  whenKept: () => void = () => {};
  /** Rises with every change: whoever reads for long can tell that something was changed meanwhile. */
  revision = 0;
  readonly #keeper: Keeper;
  /** Computed but not yet durable: what the next change builds on. */
  #coming = new Map<DocumentName, object | null>();
  /** The state before the write in progress: readers see it until the write is durable. */
  #before = new Map<DocumentName, object | StorageError | null>();
  #next: Batch | null = null;
  #running: Promise<void> | null = null;
  #closed = false;
  /** While several changes are worked out as one: the draft they share, and what one of them was refused for. */
  #shared: { draft: Draft; refused: unknown[] } | null = null;

  constructor(keeper: Keeper) {
    this.place = keeper.place;
    this.backups = keeper.backups;
    this.#keeper = keeper;
  }

  read<Name extends DocumentName>(name: Name) {
    return this.#over(this.#before, name) as Documents[Name] | null;
  }

  names(kind: DocumentKind) {
    return this.#namesOver([this.#before], kind);
  }

  /** Documents there should be and that cannot be read, each with why. */
  damaged(): { name: DocumentName; why: StorageError }[] {
    return [...this.#keeper.names()].flatMap((name) => {
      const held = this.#heldIn(this.#before, name);
      return held instanceof StorageError ? [{ name, why: held }] : [];
    });
  }

  /**
   * `work` runs at once and must not wait; what it throws leaves everything as it was.
   * @returns what `work` returned, once the change is durable.
   */
  async change<Answer>(work: (draft: Draft) => Answer): Promise<Answer> {
    if (this.#closed) throw new StorageError('locked', 'The record has been closed. Nothing was written.');
    if (this.#shared) {
      try {
        return work(this.#shared.draft);
      } catch (why) {
        this.#shared.refused.push(why);
        throw why;
      }
    }
    const changes = new Map<DocumentName, object | null>();
    const forgotten = new Map<string, string>();
    const read = (name: DocumentName) =>
      changes.has(name) ? (changes.get(name) ?? null) : this.#over(this.#coming, name);
    const answer = work({
      read: <Name extends DocumentName>(name: Name) => read(name) as Documents[Name] | null,
      names: (kind) => this.#namesOver([this.#coming, changes], kind),
      replace: (name, document) => changes.set(name, document),
      write: (name, document) => {
        read(name); // refuses a document that could not be read
        changes.set(name, document);
      },
      remove: (name) => {
        if (read(name)) changes.set(name, null);
      },
      forget: (id, code) => void forgotten.set(id, code),
    });
    if (changes.size === 0) return answer;
    for (const [name, document] of changes) if (document) checkReadable(name, document);
    for (const [name, document] of changes) this.#coming.set(name, document);
    this.revision += 1;
    await this.#join(changes, forgotten);
    return answer;
  }

  /**
   * Several changes as one: durable together, or none of them where one is refused. `begin` must begin them all at once,
   * without waiting in between.
   * @returns what each returned
   */
  async together<Answers extends readonly unknown[]>(
    begin: () => { [Each in keyof Answers]: Promise<Answers[Each]> },
  ): Promise<Answers> {
    const begun = await this.change((draft) => {
      const shared = (this.#shared = { draft, refused: [] as unknown[] });
      try {
        const answers = Promise.all(begin());
        answers.catch(() => {}); // the refusal is thrown below
        if (shared.refused.length > 0) throw shared.refused[0];
        return { answers };
      } finally {
        this.#shared = null;
      }
    });
    return (await begun.answers) as unknown as Answers;
  }

  async close() {
    this.#closed = true;
    await this.#running;
    await this.#keeper.close();
  }

  #heldIn(changes: Held, name: DocumentName): object | StorageError | null {
    return changes.has(name) ? (changes.get(name) ?? null) : this.#keeper.document(name);
  }

  #over(changes: Held, name: DocumentName): object | null {
    const document = this.#heldIn(changes, name);
    if (document instanceof StorageError) throw document;
    return document;
  }

  #namesOver(layers: readonly Held[], kind: DocumentKind): DocumentName[] {
    const names = new Set(this.#keeper.names());
    for (const layer of layers)
      for (const [name, document] of layer)
        if (document) names.add(name);
        else names.delete(name);
    return [...names].filter((name) => kindOf(name) === kind);
  }

  #join(changes: Changes, forgotten: Forgotten) {
    const batch = (this.#next ??= new Batch());
    for (const [id, code] of forgotten) batch.forgotten.set(id, code);
    for (const [name, document] of changes) batch.changes.set(name, document);
    this.#running ??= this.#run();
    return batch.done;
  }

  #takeNext(): Batch | null {
    const batch = this.#next;
    this.#next = null;
    return batch;
  }

  async #run() {
    await Promise.resolve(); // changes made in the same breath join the first write
    for (let batch = this.#takeNext(); batch; batch = this.#takeNext()) {
      for (const name of batch.changes.keys()) this.#before.set(name, this.#heldIn(noChanges, name));
      try {
        if (batch.forgotten.size > 0) await this.beforeForgetting(batch.forgotten);
        await this.#keeper.keep(batch.changes, batch.forgotten);
        this.whenKept();
        // What a later change has added on top is still to come.
        for (const [name, document] of batch.changes)
          if (this.#coming.get(name) === document) this.#coming.delete(name);
        batch.resolve();
      } catch (why) {
        const builtOnIt = this.#takeNext();
        this.#coming = new Map();
        batch.reject(why);
        builtOnIt?.reject(why);
      }
      this.#before = new Map();
    }
    this.#running = null;
  }
}
