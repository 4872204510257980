import type { DocumentName } from './documents';
import type { Reader } from './shelf';

/** Codes of each shard, kept with the shard itself: a change makes one shard new and leaves the others' maps as they are. */
const known = new WeakMap<object, ReadonlyMap<string, string>>();

const codesIn = (reader: Reader, name: DocumentName): ReadonlyMap<string, string> => {
  const shard = reader.read(name as `cases/${number}`);
  if (!shard) return new Map();
  let codes = known.get(shard);
  if (!codes) known.set(shard, (codes = new Map(shard.records.map(({ id, code }) => [code, id]))));
  return codes;
};

/** @returns the id of the case that has each of these codes, without going through every case of the record */
export function holdersOf(reader: Reader, codes: readonly string[]): Map<string, string> {
  const shards = reader.names('cases').map((name) => codesIn(reader, name));
  const holders = new Map<string, string>();
  for (const code of codes)
    for (const shard of shards) {
      const id = shard.get(code);
      if (id !== undefined) holders.set(code, id);
    }
  return holders;
}
