import type { Case, Reflection } from '../../model';
import type { Work } from '../../turns';
import type { Documents } from './documents';
import { groupBy } from './group-by';
import { numberOf } from './numbered';
import { checkReadable } from './readable';
import type { Draft, Reader } from './shelf';

/**
 * At most this many records share a document, so a save costs the same with 1,000 and 100,000 cases (a single file of
 * 100,000 cases took over 2 s a save). The number of a record, given on arrival, decides where it lies; it never moves.
 */
export const shardSize = 1000;

type Sharded = { cases: Case; reflections: Reflection };
type Kind = keyof Sharded;
const prefixes = { cases: 'case', reflections: 'reflection' } as const;

const nameOf = (kind: Kind, id: string) => `${kind}/${Math.floor((numberOf(id) - 1) / shardSize) + 1}` as const;
const shard = <K extends Kind>(reader: Reader, name: string) =>
  reader.read(name as 'cases/1') as { next: number; records: readonly Sharded[K][] } | null;

/** All records of a kind in order of arrival. */
export const allOf = <K extends Kind>(reader: Reader, kind: K): Sharded[K][] =>
  reader
    .names(kind)
    .sort((a, b) => a.length - b.length || (a < b ? -1 : 1))
    .flatMap((name) => shard<K>(reader, name)?.records ?? []);

export const findIn = <K extends Kind>(reader: Reader, kind: K, id: string): Sharded[K] | null =>
  shard<K>(reader, nameOf(kind, id))?.records.find((record) => record.id === id) ?? null;

/** The first id never used, and those after it. */
export function* freshIds(reader: Reader, kind: Kind): Generator<string, never> {
  const nexts = reader.names(kind).map((name) => shard(reader, name)?.next ?? 1);
  for (let number = Math.max(1, ...nexts); ; number++) yield `${prefixes[kind]}-${number}`;
}

/** Adds or replaces records by id. */
export function put<K extends Kind>(draft: Draft, kind: K, records: readonly Sharded[K][]): void {
  for (const [name, changed] of groupBy(records, (record) => nameOf(kind, record.id))) {
    const before = shard<K>(draft, name);
    const byId = new Map((before?.records ?? []).map((record) => [record.id, record]));
    for (const record of changed) byId.set(record.id, record);
    const next = Math.max(before?.next ?? 1, ...changed.map((record) => numberOf(record.id) + 1));
    draft.write(name, { next, records: [...byId.values()] } as Documents[`cases/${number}`]);
  }
}

export type NewShard = readonly [
  name: `cases/${number}` | `reflections/${number}`,
  shard: Documents[`cases/${number}`],
];

/** The documents of many records, for a record that has none of this kind; checked, so that a change need not. */
export function* shardsOf<K extends Kind>(kind: K, records: readonly Sharded[K][]): Work<NewShard[]> {
  const shards: NewShard[] = [];
  for (const [name, inIt] of groupBy(records, (record) => nameOf(kind, record.id))) {
    const next = inIt.reduce((most, { id }) => Math.max(most, numberOf(id) + 1), 1);
    const shard = Object.freeze({ next, records: inIt }) as Documents[`cases/${number}`];
    checkReadable(name, shard);
    shards.push([name, shard]);
    yield 0;
  }
  return shards;
}

/** A whole shard where none was; ids that were used before and are gone stay used. */
export function putShard(draft: Draft, [name, shard]: NewShard): void {
  const before = draft.read(name as 'cases/1')?.next ?? 1;
  draft.write(name as 'cases/1', before > shard.next ? { ...shard, next: before } : shard);
}

/** Removes records; their ids stay used. */
export function drop(draft: Draft, kind: Kind, ids: Iterable<string>): void {
  for (const [name, gone] of groupBy(ids, (id) => nameOf(kind, id))) {
    const before = shard(draft, name);
    if (!before) continue;
    const records = before.records.filter((record) => !gone.includes(record.id));
    draft.write(name, { next: before.next, records } as Documents[`cases/${number}`]);
  }
}
