import { inTurns } from '../../in-turns';
import type { Work } from '../../../turns';
import { type Everything, type Store, StorageError } from '../port';
import { ledgerOf } from '../store-ledger';
import { fill, numberOf, recordsOf } from '../numbered';
import { allOf, putShard, shardsOf, type NewShard } from '../sharded';
import type { Draft, Reader, Shelf } from '../shelf';
import { NotWhole, wholeRecord } from '../whole-record';
import { casesInOrder } from './cases';
import { referencesOf } from './references';
import { proceduresOf, profileOf, putProcedure } from './settings';

export const isEmpty = (reader: Reader): boolean =>
  allOf(reader, 'cases').length === 0 &&
  allOf(reader, 'reflections').length === 0 &&
  (['lists', 'goals', 'results'] as const).every((kind) => recordsOf(reader, kind).length === 0) &&
  reader.names('reference').length === 0;

/** What takes long of putting a record into the store, made before the change, which must not wait. */
type Prepared = { everything: Everything; shards: readonly NewShard[] };

/** @throws StorageError `invalid` */
export function* prepared(given: Everything, what: string): Work<Prepared> {
  try {
    const everything = yield* wholeRecord(given);
    const cases = yield* shardsOf('cases', everything.cases);
    return { everything, shards: [...cases, ...(yield* shardsOf('reflections', everything.reflections))] };
  } catch (why) {
    if (!(why instanceof NotWhole)) throw why;
    throw new StorageError('invalid', `${what} cannot be stored: ${why.message}. Nothing was written.`);
  }
}

/** Writes a whole record into an empty one; ids stay as they are. */
export function fillWith(draft: Draft, { everything, shards }: Prepared): void {
  draft.write('profile', { profile: everything.profile });
  for (const procedure of everything.procedures) putProcedure(draft, procedure);
  fill(draft, 'lists', everything.lists);
  for (const shard of shards) putShard(draft, shard);
  fill(draft, 'goals', everything.goals, [...everything.results, ...everything.reflections]);
  fill(draft, 'results', everything.results);
  for (const record of everything.references) draft.write(`reference/${record.id}`, { record });
  const ledger = ledgerOf(draft);
  const reference = Math.max(ledger.next.reference, ...everything.references.map(({ id }) => numberOf(id) + 1));
  draft.write('ledger', { ...ledger, next: { ...ledger.next, reference } });
}

export const everythingOf = (reader: Reader): Everything => ({
  format: 'next-twenty/everything/1',
  profile: profileOf(reader),
  procedures: [...proceduresOf(reader)],
  lists: [...recordsOf(reader, 'lists')],
  cases: casesInOrder(reader),
  goals: [...recordsOf(reader, 'goals')],
  results: [...recordsOf(reader, 'results')],
  reflections: allOf(reader, 'reflections'),
  references: referencesOf(reader),
});

export const everythingVerbs = (shelf: Shelf): Pick<Store, 'everything' | 'restoreEverything'> => ({
  everything: async () => everythingOf(shelf),
  restoreEverything: async (everything) => {
    const whole = await inTurns(prepared(everything, 'This copy of a record'));
    return shelf.change((draft) => {
      if (!isEmpty(draft))
        throw new StorageError(
          'in-use',
          'There is already something in this record, and two records are not mixed. Nothing was written; restore into an empty data folder.',
        );
      fillWith(draft, whole);
    });
  },
});
