import { type Everything, type Store, StorageError } from '../port';
import { checked } from '../checked';
import { everythingSchema } from '../everything-schema';
import { ledgerOf } from '../store-ledger';
import { fill, numberOf, recordsOf } from '../numbered';
import { allOf, put } from '../sharded';
import type { Draft, Reader, Shelf } from '../shelf';
import { casesInOrder } from './cases';
import { referencesOf } from './references';
import { proceduresOf, profileOf, putProcedure } from './settings';

export const isEmpty = (reader: Reader): boolean =>
  allOf(reader, 'cases').length === 0 &&
  allOf(reader, 'reflections').length === 0 &&
  (['lists', 'goals', 'results'] as const).every((kind) => recordsOf(reader, kind).length === 0) &&
  reader.names('reference').length === 0;

/** Writes a whole record into an empty one; ids stay as they are. */
export function fillWith(draft: Draft, everything: Everything): void {
  draft.write('profile', { profile: everything.profile });
  for (const procedure of everything.procedures) putProcedure(draft, procedure);
  fill(draft, 'lists', everything.lists);
  put(draft, 'cases', everything.cases);
  fill(draft, 'goals', everything.goals);
  fill(draft, 'results', everything.results);
  put(draft, 'reflections', everything.reflections);
  for (const record of everything.references) draft.write(`reference/${record.id}`, { record });
  const ledger = ledgerOf(draft);
  const reference = Math.max(ledger.next.reference, ...everything.references.map(({ id }) => numberOf(id) + 1));
  draft.write('ledger', { ...ledger, next: { ...ledger.next, reference } });
}

export const everythingVerbs = (shelf: Shelf): Pick<Store, 'everything' | 'restoreEverything'> => ({
  everything: async () => ({
    format: 'next-twenty/everything/1',
    profile: profileOf(shelf),
    procedures: [...proceduresOf(shelf)],
    lists: [...recordsOf(shelf, 'lists')],
    cases: casesInOrder(shelf),
    goals: [...recordsOf(shelf, 'goals')],
    results: [...recordsOf(shelf, 'results')],
    reflections: allOf(shelf, 'reflections'),
    references: referencesOf(shelf),
  }),
  restoreEverything: (everything) =>
    shelf.change((draft) => {
      if (!isEmpty(draft))
        throw new StorageError(
          'in-use',
          'There is already something in this record, and two records are not mixed. Nothing was written; restore into an empty data folder.',
        );
      fillWith(draft, checked(everythingSchema, everything, 'This copy of a record'));
    }),
});
