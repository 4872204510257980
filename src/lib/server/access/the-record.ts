import type { Store } from '../storage';
import { useKey, type DataKey } from '../storage/disk/sealed';
import { Access, type Reach } from './access';
import { openRecord } from './open-record';

/** The record this server holds, and who may ask for it. An encrypted one is opened by the first who signs in. */
export class TheRecord {
  #store: Store | null = null;
  #opening: Promise<Store> | null = null;

  private constructor(
    readonly folder: string,
    readonly access: Access,
  ) {}

  /** @throws StorageError where the folder cannot be opened, so that no page is served */
  static async at(folder: string, reach: Reach, now: string, cost?: number): Promise<TheRecord> {
    const record = new TheRecord(folder, await Access.at(folder, reach, cost));
    if (record.access.files === 'plain') await record.open(null, now);
    return record;
  }

  /** `null` until somebody who knows the passphrase has signed in. */
  get store(): Store | null {
    return this.#store;
  }

  /** Opens it where it is not open yet; several at once open it once. */
  async open(data: DataKey | null, now: string): Promise<Store> {
    return this.#opening ?? this.#store ?? this.#begin(() => this.#opened(data, now));
  }

  /** Closed and opened again, so that a change from plain to encrypted files, or back, is made. */
  async openAgain(data: DataKey, now: string): Promise<void> {
    const earlier = this.#opening;
    await this.#begin(async () => {
      await earlier?.catch(() => {});
      const before = this.#store;
      this.#store = null;
      await before?.close();
      return this.#opened(data, now);
    });
  }

  #begin(open: () => Promise<Store>): Promise<Store> {
    const opening = open().finally(() => {
      if (this.#opening === opening) this.#opening = null;
    });
    return (this.#opening = opening);
  }

  async #opened(data: DataKey | null, now: string): Promise<Store> {
    const store = await openRecord(this.folder, data, now);
    await this.access.reload();
    return (this.#store = store);
  }

  async close(): Promise<void> {
    await this.#opening?.catch(() => {});
    await this.#store?.close();
    this.#store = null;
    useKey(this.folder, null, false);
  }
}
