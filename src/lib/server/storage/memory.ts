import type { Store } from './port';
import { Shelf, type Keeper } from './shelf';
import { storeOn } from './store-on';

const nothingKept: Keeper = {
  place: 'memory',
  load: async () => new Map(),
  keep: async () => {},
  close: async () => {},
};

/** A record that lives as long as the process: for tests of everything that is not about storage. */
export const openMemoryStore = async (): Promise<Store> => storeOn(await Shelf.open(nothingKept));
