import type { z } from 'zod';
import { documentSchemas, kindOf, type DocumentName } from './documents';
import { StorageError } from './port';

/** Records and documents found readable. They are frozen, so they stay readable: a save checks only what is new. */
const known = new WeakSet<object>();

const first = (parsed: z.ZodSafeParseResult<unknown>): string | null => {
  if (parsed.success) return null;
  const [issue] = parsed.error.issues;
  return `${issue?.path.join('.') || 'the whole of it'}: ${issue?.message}`;
};

const records = (document: object): readonly object[] =>
  'records' in document && Array.isArray(document.records) ? document.records : [];

/**
 * Whatever is written is read again at the next start by these very schemas, so it is held against them before it is
 * acknowledged: a record that could be saved and not read would close the whole file.
 * @throws StorageError `invalid`, naming the field
 */
export function checkReadable(name: DocumentName, document: object): void {
  if (known.has(document)) return;
  const schema: z.ZodType = documentSchemas[kindOf(name)];
  const all = records(document);
  const fresh = all.filter((record) => !known.has(record));
  // A shard is checked against its schema with its new records alone: otherwise a thousand old ones would be checked at
  // every save.
  const wrong =
    first(schema.safeParse(all.length > 0 ? { ...document, records: fresh } : document)) ?? misplaced(name, document);
  if (wrong !== null)
    throw new StorageError(
      'invalid',
      `This cannot be stored, because it could not be read again (${wrong}). Nothing was written.`,
    );
  for (const record of fresh) if (Object.isFrozen(record)) known.add(record);
  if (Object.isFrozen(document)) known.add(document);
}

/** An id used twice, or one the document would give out again. */
function misplaced(name: DocumentName, document: object): string | null {
  if (!('next' in document) || typeof document.next !== 'number') return null;
  const seen = new Set<string>();
  for (const record of records(document)) {
    const { id } = record as { id: string };
    if (seen.has(id)) return `${name}: the id ${id} stands there twice`;
    if (Number(id.slice(id.lastIndexOf('-') + 1)) >= document.next) return `${name}: the id ${id} would be given again`;
    seen.add(id);
  }
  return null;
}

/** What was read from a disk has already been checked against its schema. */
export function noteReadable(document: object): void {
  for (const record of records(document)) known.add(record);
}
