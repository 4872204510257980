import { listRecordSchema } from '../../../model';
import { checked, found } from '../checked';
import { append, mapRecords, recordsOf } from '../numbered';
import type { Store } from '../port';
import type { Shelf } from '../shelf';

export const listVerbs = (shelf: Shelf): Pick<Store, 'lists' | 'recordList' | 'changeList'> => ({
  lists: async () => [...recordsOf(shelf, 'lists')],
  recordList: (list) =>
    shelf.change((draft) => append(draft, 'lists', (id) => checked(listRecordSchema, { ...list, id }, 'The list'))),
  changeList: (id, edit) =>
    shelf.change((draft) => {
      const stored = found(
        recordsOf(draft, 'lists').find((list) => list.id === id),
        `The list ${id}`,
      );
      const changed = checked(listRecordSchema, { ...edit(stored), id }, 'The list');
      mapRecords(draft, 'lists', (before) => (before.id === id ? changed : before));
      return changed;
    }),
});
