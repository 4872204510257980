import { join } from 'node:path';
import { writeFile } from 'node:fs/promises';
import { TheRecord } from '../../src/lib/server/access/the-record';
import { aCase, later, now } from '../made-up/stored';
import { freshFolder } from './stores';

export const CHEAP = 2 ** 4;
export const WORDS = 'a lamp in the window';
export const SECRET = 'told-nobody';

export const opened = (folder: string) => TheRecord.at(folder, 'loopback', now, CHEAP);
export const storeOf = ({ store }: TheRecord) => {
  if (!store) throw new Error('it is not open');
  return store;
};
export const signedIn = async (record: TheRecord, text = WORDS) => {
  const signed = await record.access.signIn(text, 'a', 0);
  if (signed.refused) throw new Error(signed.refused.message);
  await record.open(signed.data, later);
  return storeOf(record);
};
export async function turned(record: TheRecord, to: 'sealing' | 'opening'): Promise<void> {
  const found = await record.access.turn(to, WORDS, 'a', 0);
  if (found.refused) throw new Error(found.refused.message);
  await record.openAgain(found.data, later);
}

/** A plain record with a case, a draft, a list sheet on its way, a backup and a copy put aside, all with the secret in them. */
export async function withSecrets() {
  const folder = await freshFolder();
  const record = await opened(folder);
  const store = storeOf(record);
  const one = await store.recordCase(aCase(SECRET));
  await store.updateCase({ ...one, position: 7 }, 'Place', now);
  await store.saveDraft('kept', SECRET);
  await store.holdImport({ heldAt: later, fileName: 'a.csv', text: SECRET, choices: {} });
  await record.access.set({ old: '', text: WORDS, again: WORDS }, 'a', 0);
  await writeFile(
    join(folder, 'cases', '1.json.unreadable-2026-01-01T00-00-00-000Z'),
    Buffer.from([0xff, 0xfe, 0x80, ...Buffer.from(SECRET)]),
  );
  return { folder, record, store };
}
