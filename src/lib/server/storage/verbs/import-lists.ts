import { listRecordSchema, type Case } from '../../../model';
import { checked } from '../checked';
import { append, recordsOf } from '../numbered';
import type { ImportBatch } from '../port';
import type { Draft } from '../shelf';

/**
 * Finds or makes the list record for each list of an import, so that a corrected file brought in again makes no second
 * set of lists. A list is one already there when the batch says so, when a case it replaces lies in it, or when day
 * and name are the same.
 * Lists no case needs are made too: their untimed operations count for safety.
 */
export function takeLists(
  draft: Draft,
  batch: ImportBatch,
  replacedCases: ReadonlyMap<string, Case>,
): { idOf: ReadonlyMap<string, string>; added: string[] } {
  const known = recordsOf(draft, 'lists');
  const idOf = new Map<string, string>();
  for (const { caseId, case: coming } of batch.replace) {
    const listId = replacedCases.get(caseId)?.listId;
    if (coming.list !== null && listId) idOf.set(coming.list, listId);
  }
  for (const { key, there } of batch.lists) if (there && known.some(({ id }) => id === there)) idOf.set(key, there);
  const added: string[] = [];
  for (const { key, there: _there, ...list } of batch.lists) {
    if (idOf.has(key)) continue;
    const { when, label } = list;
    const same =
      when.kind === 'date' &&
      known.find((each) => each.when.kind === 'date' && each.when.date === when.date && each.label === label);
    if (same) idOf.set(key, same.id);
    else {
      const record = append(draft, 'lists', (id) => checked(listRecordSchema, { ...list, id }, `The list ${key}`));
      idOf.set(key, record.id);
      added.push(record.id);
    }
  }
  return { idOf, added };
}
