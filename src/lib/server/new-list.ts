import type { NewListForm } from '../rooms/lists/new-list';
import type { SurgeonRecord, ListRecord } from '../model';
import type { Store } from './storage/port';
import { newList, typedCase } from './typed-case';

/** A list with its cases by code alone: everything else is filled in row by row, before a time is seen. */
export async function recordNewList(
  store: Store,
  record: Pick<SurgeonRecord, 'cases'>,
  { label, when, procedureId, codes }: NewListForm,
): Promise<ListRecord> {
  const list = await newList(store, label, when);
  const noTimes = { stretches: [], wentBackNoted: {}, keptSeen: {} };
  const first = typedCase(
    record,
    {
      code: '',
      procedureId,
      listId: list.id,
      position: null,
      facts: {},
      hands: { whole: 'mine', steps: {} },
      events: null,
    },
    noTimes,
  );
  for (const [index, code] of codes.entries())
    await store.recordCase({ ...first, code, position: index + 1, sequence: first.sequence + index });
  return list;
}
