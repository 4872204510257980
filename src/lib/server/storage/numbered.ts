import type { Draft, Reader } from './shelf';
import type { Documents } from './documents';

/** Kinds kept whole in one document, and the first part of their ids. */
const prefixes = { lists: 'list', goals: 'goal', results: 'result' } as const;
type Kind = keyof typeof prefixes;
type RecordOf<K extends Kind> = Documents[K]['records'][number];

export const recordsOf = <K extends Kind>(reader: Reader, kind: K): readonly RecordOf<K>[] =>
  reader.read(kind)?.records ?? [];

/** Adds records whose ids are made here, in order of arrival. `make` gets the id and returns the checked record. */
export function append<K extends Kind>(draft: Draft, kind: K, make: (id: string) => RecordOf<K>): RecordOf<K> {
  const before = draft.read(kind) ?? { next: 1, records: [] };
  const record = make(`${prefixes[kind]}-${before.next}`);
  draft.write(kind, { next: before.next + 1, records: [...before.records, record] } as Documents[K]);
  return record;
}

/** Replaces a record by another version, or removes records where `change` returns null. */
export function mapRecords<K extends Kind>(
  draft: Draft,
  kind: K,
  change: (record: RecordOf<K>) => RecordOf<K> | null,
): void {
  const before = draft.read(kind);
  if (!before) return;
  const records = before.records.map((record) => change(record as RecordOf<K>)).filter((record) => record !== null);
  draft.write(kind, { next: before.next, records } as Documents[K]);
}

export const numberOf = (id: string) => Number(id.slice(id.lastIndexOf('-') + 1));

/**
 * Takes records that already have ids into an empty kind. `named`: what names a goal, perhaps one that is gone; its id is
 * not given again.
 */
export function fill<K extends Kind>(
  draft: Draft,
  kind: K,
  records: readonly RecordOf<K>[],
  named: readonly { goalId: string | null }[] = [],
): void {
  const ids = [...records.map(({ id }) => id), ...named.flatMap(({ goalId }) => goalId ?? [])];
  const next = ids.reduce((most, id) => Math.max(most, numberOf(id) + 1), draft.read(kind)?.next ?? 1);
  draft.write(kind, { next, records: [...records] } as Documents[K]);
}
