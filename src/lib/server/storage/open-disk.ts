import { Copies } from '../second-folder/copies';
import { DiskKeeper } from './disk/disk-keeper';
import type { Versions } from './disk/document-text';
import { makeFolders } from './disk/folder';
import { refusedStart } from './disk/disk-words';
import { takeLock } from './disk/lock';
import { migrations, schemaVersion } from './migrations';
import type { Store } from './port';
import { Shelf } from './shelf';
import { readable } from './readable-part';
import { findIn } from './sharded';
import { storeOn } from './store-on';
import { readableEverythingOf, tolerant } from './verbs/damage';
import { dropForgotten } from './verbs/held-imports';
import { profileOf } from './verbs/settings';

/**
 * Opens the record in `folder`, making a new one where the folder is empty, and takes its lock. A file that cannot be
 * read does not keep the others from being used: whatever needs it says so.
 * @param now ISO instant: imports held for more than an hour are dropped
 * @param settle run once the folder is ours and a change left half done is whole; `true`: the files are other ones now
 * @throws StorageError `locked`, `missing`, `newer`, `unreadable` or `disk` when nothing can be told of the record at
 * all
 */
export async function openDiskStore(
  folder: string,
  now: string,
  versions: Versions = { schemaVersion, migrations },
  settle: () => Promise<boolean> = async () => false,
): Promise<Store> {
  try {
    await makeFolders(folder);
    const lock = await takeLock(folder, now);
    try {
      let keeper = await DiskKeeper.open(folder, lock, versions);
      if (await settle()) keeper = await DiskKeeper.open(folder, lock, versions);
      const shelf = new Shelf(keeper);
      await shelf.change((draft) => dropForgotten(draft, now));
      const copies = await Copies.open(folder, {
        readable: () => readableEverythingOf(shelf),
        has: (id) => readable(() => findIn(shelf, 'cases', id) !== null, true),
        months: () => profileOf(tolerant(shelf)).backupMonths,
      });
      shelf.beforeForgetting = (gone) => copies.forgetting(gone.keys());
      shelf.whenKept = () => copies.changed();
      return storeOn(shelf, copies);
    } catch (why) {
      await lock.release();
      throw why;
    }
  } catch (why) {
    throw refusedStart(why, folder);
  }
}
