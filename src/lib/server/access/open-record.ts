import { openStore, type Store } from '../storage';
import { useKey, type DataKey } from '../storage/disk/sealed';
import { switchFiles } from '../storage/disk/switch-files';
import { changePassphrase, readPassphrase } from './passphrase';

/**
 * Opens a record with the key that its passphrase gave, or with none where its files are plain. A change from one to the
 * other that was broken off is finished first, before anything of the record is read.
 * @throws StorageError as `openStore` does
 */
export async function openRecord(folder: string, data: DataKey | null, now: string): Promise<Store> {
  const file = await readPassphrase(folder);
  const files = file?.files ?? 'plain';
  if (data) useKey(folder, data, files === 'sealed' || files === 'sealing');
  return openStore(folder, now, undefined, async () => {
    if (!file || !data || (files !== 'sealing' && files !== 'opening')) return false;
    await switchFiles(folder, data, files === 'sealing' ? 'sealed' : 'plain');
    // As the file stands by then: the passphrase may have been changed while the files were.
    await changePassphrase(folder, (now) => now && { ...now, files: files === 'sealing' ? 'sealed' : 'plain' });
    return true;
  });
}
