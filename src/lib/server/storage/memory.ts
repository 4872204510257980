import { Low, Memory } from 'lowdb';
import type { DocumentName } from './documents';
import type { Store } from './port';
import { Shelf, type Changes, type Keeper } from './shelf';
import { storeOn } from './store-on';

/** Holds the documents as long as the process lives. */
class MemoryKeeper implements Keeper {
  readonly place = 'memory';
  readonly backups = null;
  readonly #held = new Map<DocumentName, Low<object | null>>();

  document(name: DocumentName) {
    return this.#held.get(name)?.data ?? null;
  }

  names() {
    return this.#held.keys();
  }

  async keep(changes: Changes) {
    for (const [name, document] of changes)
      if (document) this.#held.set(name, new Low<object | null>(new Memory(), document));
      else this.#held.delete(name);
  }

  async close() {}
}

/** A record that lives as long as the process: for tests of everything that is not about storage. */
export const openMemoryStore = async (): Promise<Store> => storeOn(new Shelf(new MemoryKeeper()));
