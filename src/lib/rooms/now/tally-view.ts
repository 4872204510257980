import { listed } from '../../format';
import type { SurgeonRecord } from '../../model';
import { listTitle } from '../forms/when-words';

/** How many cases of a window each list gave, in order. */
export type Tally = { label: string; lists: readonly { name: string; count: number }[] };

/** Counted cases by list; `null` where there is none to count yet. */
export function tallyOf(ids: readonly string[], record: Pick<SurgeonRecord, 'cases' | 'lists'>): Tally | null {
  if (ids.length === 0) return null;
  const wanted = new Set(ids);
  const counts = new Map<string | null, number>();
  for (const { id, listId } of record.cases) if (wanted.has(id)) counts.set(listId, (counts.get(listId) ?? 0) + 1);
  const name = (listId: string | null) => {
    const list = record.lists.find(({ id }) => id === listId);
    return list ? listTitle(list) : 'list not known';
  };
  const lists = [...counts].map(([listId, count]) => ({ name: name(listId), count }));
  return { label: `Counted cases by list: ${listed(lists.map((each) => String(each.count)))}`, lists };
}
