import type { NewListForm } from '../rooms/lists/new-list';
import type { ListRecord } from '../model';
import type { Store } from './storage/port';
import { newList, typedCase } from './typed-case';

/** A list with its cases by code alone, in one change: everything else is filled in row by row, before a time is seen. */
export async function recordNewList(
  store: Store,
  { label, when, procedureId, codes }: NewListForm,
): Promise<ListRecord> {
  const noTimes = { stretches: [], returnsNoted: {}, protectedSeen: {} };
  const unsaid = { procedureId, facts: {}, hands: { whole: 'mine' as const, steps: {} }, events: null };
  const { list } = await store.recordCases(
    newList(label, when),
    codes.map((code, index) => typedCase({ ...unsaid, code, position: index + 1 }, noTimes)),
  );
  if (!list) throw new Error('a list was asked for and none was made');
  return list;
}
