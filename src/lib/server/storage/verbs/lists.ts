import { listRecordSchema } from '../../../model';
import { checked, found } from '../checked';
import { append, mapRecords, recordsOf } from '../numbered';
import type { Store } from '../port';
import type { Shelf } from '../shelf';

export const listVerbs = (shelf: Shelf): Pick<Store, 'lists' | 'recordList' | 'updateList'> => ({
  lists: async () => [...recordsOf(shelf, 'lists')],
  recordList: (list) =>
    shelf.change((draft) => append(draft, 'lists', (id) => checked(listRecordSchema, { ...list, id }, 'The list'))),
  updateList: (list) =>
    shelf.change((draft) => {
      found(
        recordsOf(draft, 'lists').find(({ id }) => id === list.id),
        `The list ${list.id}`,
      );
      const changed = checked(listRecordSchema, list, 'The list');
      mapRecords(draft, 'lists', (before) => (before.id === list.id ? changed : before));
    }),
});
