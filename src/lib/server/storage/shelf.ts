import { type DocumentKind, type DocumentName, type Documents, kindOf } from './documents';
import { StorageError } from './port';

/** A document, or why it cannot be read; such a one is neither read nor written. */
export type Loaded = ReadonlyMap<DocumentName, object | StorageError>;
/** New contents by name; `null` takes the document away. */
export type Changes = ReadonlyMap<DocumentName, object | null>;

/** What makes a shelf durable: all that differs between the adapters. */
export interface Keeper {
  readonly place: string;
  load(): Promise<Loaded>;
  /** All of these or none. Resolves when they would survive a power cut. */
  keep(changes: Changes): Promise<void>;
  close(): Promise<void>;
}

/** Reading documents: from the shelf as acknowledged, or inside a change as it will be. */
export interface Reader {
  read<Name extends DocumentName>(name: Name): Documents[Name] | null;
  names(kind: DocumentKind): DocumentName[];
}

export interface Draft extends Reader {
  write<Name extends DocumentName>(name: Name, document: Documents[Name]): void;
  remove(name: DocumentName): void;
}

const readFrom = (documents: Loaded, name: DocumentName): object | null => {
  const document = documents.get(name);
  if (document instanceof StorageError) throw document;
  return document ?? null;
};

const namesIn = (documents: Loaded, kind: DocumentKind) =>
  [...documents.keys()].filter((name) => kindOf(name) === kind);

/** Changes that go to the keeper together, and the callers who wait for them. */
class Batch {
  readonly changes = new Map<DocumentName, object | null>();
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
 * The documents of one record in memory. A change is worked out at once on a draft, joins the next write,
 * and is seen by readers and answered when that write is durable. While one write runs, later changes gather in one more:
 * an autosave storm costs two writes, and nobody waits for a state that is not theirs.
 * When a write fails, the changes built on it go with it, and each of their callers hears why.
 */
export class Shelf implements Reader {
  readonly place: string;
  readonly #keeper: Keeper;
  #durable: Map<DocumentName, object | StorageError>;
  #working: Map<DocumentName, object | StorageError>;
  #next: Batch | null = null;
  #running: Promise<void> | null = null;
  #closed = false;

  private constructor(keeper: Keeper, loaded: Loaded) {
    this.place = keeper.place;
    this.#keeper = keeper;
    this.#durable = new Map(loaded);
    this.#working = new Map(loaded);
  }

  static async open(keeper: Keeper): Promise<Shelf> {
    return new Shelf(keeper, await keeper.load());
  }

  read<Name extends DocumentName>(name: Name) {
    return readFrom(this.#durable, name) as Documents[Name] | null;
  }

  names(kind: DocumentKind) {
    return namesIn(this.#durable, kind);
  }

  /**
   * `work` runs at once and must not wait; what it throws leaves everything as it was.
   * @returns what `work` returned, once the change is durable.
   */
  async change<Answer>(work: (draft: Draft) => Answer): Promise<Answer> {
    if (this.#closed) throw new StorageError('locked', 'The record has been closed. Nothing was written.');
    const changes = new Map<DocumentName, object | null>();
    const working = this.#working;
    const seen = () => {
      const now = new Map(working);
      for (const [name, document] of changes)
        if (document) now.set(name, document);
        else now.delete(name);
      return now;
    };
    const read = (name: DocumentName) => (changes.has(name) ? (changes.get(name) ?? null) : readFrom(working, name));
    const answer = work({
      read: <Name extends DocumentName>(name: Name) => read(name) as Documents[Name] | null,
      names: (kind) => namesIn(seen(), kind),
      write: (name, document) => {
        read(name); // refuses a document that could not be read
        changes.set(name, document);
      },
      remove: (name) => {
        if (read(name)) changes.set(name, null);
      },
    });
    if (changes.size === 0) return answer;
    for (const [name, document] of changes) {
      if (document) working.set(name, document);
      else working.delete(name);
    }
    await this.#join(changes);
    return answer;
  }

  async close() {
    this.#closed = true;
    await this.#running;
    await this.#keeper.close();
  }

  #join(changes: Changes) {
    const batch = (this.#next ??= new Batch());
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
      try {
        await this.#keeper.keep(batch.changes);
        for (const [name, document] of batch.changes) {
          if (document) this.#durable.set(name, document);
          else this.#durable.delete(name);
        }
        batch.resolve();
      } catch (why) {
        const builtOnIt = this.#takeNext();
        this.#working = new Map(this.#durable);
        batch.reject(why);
        builtOnIt?.reject(why);
      }
    }
    this.#running = null;
  }
}
