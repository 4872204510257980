import { emptyProfile, profileSchema, type Case, type ListRecord } from '../../../model';
import { emptyLedger, isDocumentName, kindOf, type DocumentKind, type DocumentName, type Ledger } from '../documents';
import { frozen } from '../frozen';
import { numberOf, recordsOf } from '../numbered';
import { StorageError, type Damage, type Everything, type Store } from '../port';
import { readable } from '../readable-part';
import { allOf, shardSize } from '../sharded';
import type { Draft, Reader, Shelf } from '../shelf';
import { refuseTakenCodes } from './cases';
import { everythingOf } from './everything';

const placeOf = (name: DocumentName) => Number(name.split('/')[1]);
const span = (name: DocumentName) =>
  `${((placeOf(name) - 1) * shardSize + 1).toLocaleString('en-GB')} to ${(placeOf(name) * shardSize).toLocaleString('en-GB')}, in order of arrival`;

const HOLDS: { readonly [Kind in DocumentKind]: (name: DocumentName) => string } = {
  profile: () => 'the settings',
  procedures: () => 'your own procedures, and your changes of those that come with the program',
  lists: () => 'what was said of each list: its day, the operations, events in untimed operations',
  goals: () => 'the practice goals',
  results: () => 'the results as they were stored',
  drafts: () => 'texts kept as drafts, and what undo needs',
  ledger: () => 'how many cases were erased, and the numbers given to files that were looked at and to reference sets',
  cases: (name) => `cases ${span(name)}`,
  reflections: (name) => `reflections ${span(name)}`,
  reference: () => 'a reference set',
  imports: () => 'a file brought in: it waits to be confirmed, or can be taken back',
};
export const holdsOf = (name: DocumentName): string => HOLDS[kindOf(name)](name);
const NOT_EXPORTED: readonly DocumentKind[] = ['drafts', 'ledger', 'imports'];

const damageOf = ({ name, why }: { name: DocumentName; why: StorageError }): Damage => ({
  name,
  message: why.message,
  holds: holdsOf(name),
  exported: !NOT_EXPORTED.includes(kindOf(name)),
  newer: why.code === 'newer',
});

/** A list of which nothing is known but that these cases were on it: what rests on lists goes on to hold. */
export const emptyList = (id: string): ListRecord => ({
  id,
  label: null,
  when: { kind: 'unknown' },
  operated: null,
  anaesthesia: null,
  machine: null,
  teaching: null,
  eventsAnsweredForAll: null,
  untimedEvents: [],
  nextDayKnown: null,
});

/** The lists, with an empty one for each that a case names and that is not among them. */
export function withListsOf(lists: readonly ListRecord[], cases: readonly Pick<Case, 'listId'>[]): ListRecord[] {
  const known = new Set(lists.map(({ id }) => id));
  const gone = new Set(cases.flatMap(({ listId }) => (listId !== null && !known.has(listId) ? [listId] : [])));
  return [...lists, ...[...gone].sort((a, b) => numberOf(a) - numberOf(b)).map(emptyList)];
}

/** A reader for whom a document that cannot be read is not there. */
export const tolerant = (reader: Reader): Reader => ({
  read: (name) => readable(() => reader.read(name), null),
  names: (kind) => reader.names(kind),
});

const inShard = (name: DocumentName, id: string) => Math.floor((numberOf(id) - 1) / shardSize) + 1 === placeOf(name);

const after = (ids: readonly (string | null)[]) =>
  ids.reduce((next, id) => Math.max(next, id === null ? 1 : numberOf(id) + 1), 1);

/** What stands in the place of a document that cannot be read; `null`: nothing. */
function inPlaceOf(
  name: DocumentName,
  from: Everything | null,
  reader: Reader,
  backup: object | null = null,
): object | null {
  const kind = kindOf(name);
  const shard = <Row extends { id: string }>(rows: readonly Row[] = []) => ({
    next: placeOf(name) * shardSize + 1,
    records: rows.filter(({ id }) => inShard(name, id)),
  });
  switch (kind) {
    case 'profile':
      return { profile: from?.profile ?? profileSchema.parse(emptyProfile) };
    case 'procedures':
      return { records: from?.procedures ?? [] };
    case 'lists': {
      const records = withListsOf(from?.lists ?? [], allOf(reader, 'cases'));
      return { next: after(records.map(({ id }) => id)), records };
    }
    case 'goals': {
      const records = from?.goals ?? [];
      const named = [...recordsOf(reader, 'results'), ...allOf(reader, 'reflections')].map(({ goalId }) => goalId);
      return { next: after([...records.map(({ id }) => id), ...named]), records };
    }
    case 'results':
      return { next: after((from?.results ?? []).map(({ id }) => id)), records: from?.results ?? [] };
    case 'cases':
      return shard(from?.cases);
    case 'reflections':
      return shard(from?.reflections);
    case 'drafts':
      return { values: {} };
    case 'ledger': {
      const next = { import: after(reader.names('imports')), reference: after(reader.names('reference')) };
      const was = (backup ?? emptyLedger) as Ledger;
      next.import = Math.max(next.import, was.next.import);
      next.reference = Math.max(next.reference, was.next.reference);
      return { ...was, next };
    }
    case 'reference': {
      const record = from?.references.find(({ id }) => name === `reference/${id}`);
      return record ? { record } : null;
    }
    case 'imports':
      return null;
  }
}

/** A document of a backup as an export with nothing else in it. */
function asEverything(name: DocumentName, document: object): Everything {
  const {
    profile = profileSchema.parse(emptyProfile),
    records = [],
    record,
  } = document as Partial<Everything> & {
    records?: never[];
    record?: Everything['references'][number];
  };
  return {
    format: 'next-twenty/everything/1',
    profile,
    procedures: [],
    lists: [],
    cases: [],
    goals: [],
    results: [],
    reflections: [],
    references: record ? [record] : [],
    ...(records.length > 0 ? { [kindOf(name)]: records } : {}),
  };
}

/** Cases that came back may have codes that were given since, and be on lists that the record does not have. */
function takeBack(draft: Draft, cases: readonly Case[]): void {
  refuseTakenCodes(tolerant(draft), cases);
  const lists = readable(() => draft.read('lists') ?? { next: 1, records: [] }, null);
  if (!lists) return; // damaged too: they are made when that is put right
  const records = withListsOf(lists.records, cases);
  if (records.length > lists.records.length)
    draft.write('lists', { next: Math.max(lists.next, after(records.map(({ id }) => id))), records: frozen(records) });
}

/** Documents whose records are named by number in others: which numbers are taken is read there. */
const NAMED_IN: Partial<Record<DocumentKind, readonly DocumentKind[]>> = {
  lists: ['cases'],
  goals: ['results', 'reflections'],
};

/** A number that an unreadable record still names could be given a second time, and its cases would join another list. */
function refuseBefore(name: DocumentName, shelf: Shelf): void {
  const first = shelf
    .damaged()
    .find((each) => NAMED_IN[kindOf(name)]?.some((kind) => each.name === kind || each.name.startsWith(`${kind}/`)));
  if (first)
    throw new StorageError(
      'in-use',
      `Put ${first.name}.json right first: what it names in ${name}.json is not known until then. Nothing was changed.`,
    );
}

export function readableEverythingOf(shelf: Shelf): { everything: Everything; missing: string[] } {
  const everything = everythingOf(tolerant(shelf));
  const missing = shelf.damaged().flatMap((each) => {
    const { name, holds, exported } = damageOf(each);
    return exported ? [`${name}: ${holds}`] : [];
  });
  const goals = new Set(everything.goals.map(({ id }) => id));
  const gone = everything.results.filter(({ goalId }) => !goals.has(goalId)).length;
  if (gone > 0) missing.push(`goals: those of ${gone} stored ${gone === 1 ? 'result' : 'results'}`);
  return { everything, missing };
}

export const damageVerbs = (shelf: Shelf): Pick<Store, 'damaged' | 'readableEverything' | 'replaceDamaged'> => ({
  damaged: async () => shelf.damaged().map(damageOf),
  readableEverything: async () => readableEverythingOf(shelf),
  replaceDamaged: async (name, given) => {
    const backup = given === 'backup' && isDocumentName(name) ? await shelf.backups?.newestGood(name) : null;
    if (given === 'backup' && !backup)
      throw new StorageError('not-found', `There is no backup of ${name}.json that can be read. Nothing was changed.`);
    return shelf.change((draft) => {
      const damage = shelf.damaged().find((each) => each.name === name);
      if (!damage || !isDocumentName(name)) return; // already put right, in another window
      if (damage.why.code === 'newer') throw damage.why;
      refuseBefore(name, shelf);
      const from = given === 'backup' ? (backup ? asEverything(name, backup.document) : null) : given;
      const document =
        kindOf(name) === 'imports' && backup
          ? backup.document
          : inPlaceOf(name, from, tolerant(draft), backup?.document);
      draft.replace(name, document && frozen(document));
      if (kindOf(name) === 'cases' && from)
        takeBack(
          draft,
          from.cases.filter(({ id }) => inShard(name, id)),
        );
    });
  },
});
