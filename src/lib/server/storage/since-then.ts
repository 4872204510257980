import { same } from '../../model';
import type { SinceThen } from './port';

type Row = { id: string };

/** What a document holds, a row a record; one without ids is a single row. */
function rowsOf(document: object | null): readonly Row[] {
  if (document === null) return [];
  if ('records' in document) return document.records as Row[];
  const [content] = Object.values(document).filter((value) => typeof value === 'object' && value !== null);
  return [{ ...(content as object), id: 'the whole of it' }];
}

/** How many records were added, changed and removed between two versions of a document. */
export function sinceThen(then: object | null, now: object | null): SinceThen {
  const before = new Map(rowsOf(then).map((row) => [row.id, row]));
  const since = { added: 0, changed: 0, removed: 0 };
  for (const row of rowsOf(now)) {
    const was = before.get(row.id);
    if (was === undefined) since.added += 1;
    else if (was !== row && !same(was, row)) since.changed += 1;
    before.delete(row.id);
  }
  return { ...since, removed: before.size };
}
