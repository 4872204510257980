import { caseSchema, listRecordSchema, same, type Case } from '../../../model';
import { checked, found } from '../checked';
import { holdersOf } from '../codes';
import { append, recordsOf } from '../numbered';
import { StaleVersionError, StorageError, type Store } from '../port';
import type { Draft, Reader, Shelf } from '../shelf';
import { allOf, findIn, freshIds, put } from '../sharded';

export const casesInOrder = (reader: Reader): Case[] => allOf(reader, 'cases').sort((a, b) => a.sequence - b.sequence);

/** The last sequence number of each shard; not of all cases spread as arguments, which a long record would not survive. */
const lastSequences = (reader: Reader): number[] =>
  reader.names('cases').map((name) => {
    const records = reader.read(name as `cases/${number}`)?.records ?? [];
    return records.reduce((last, { sequence }) => Math.max(last, sequence), 0);
  });

/** @throws StorageError `duplicate-code` where a code belongs to another case, or to two of these. */
export function refuseTakenCodes(reader: Reader, coming: readonly { id: string | null; code: string }[]): void {
  const changing = new Set(coming.map(({ id }) => id));
  const codes = coming.map(({ code }) => code);
  const holders = holdersOf(reader, codes);
  const given = new Set<string>();
  const taken = codes.find((code) => {
    const holder = holders.get(code);
    if ((holder !== undefined && !changing.has(holder)) || given.has(code)) return true;
    given.add(code);
    return false;
  });
  if (taken !== undefined)
    throw new StorageError(
      'duplicate-code',
      `There is already a case ${taken}. Nothing was written; give this one another code.`,
    );
}

/** @throws StorageError `kept-as-it-is`, unless all that changes is the keeping itself (lifted with a reason). */
export function refuseIfKept(stored: Case, changed: Case | null): void {
  if (!stored.keptAsItIs) return;
  const rest = (each: Case) => ({ ...each, keptAsItIs: null, version: 0, history: [] });
  if (changed && changed.keptAsItIs === null && same(rest(changed), rest(stored))) return;
  throw new StorageError(
    'kept-as-it-is',
    `Case ${stored.code} is kept as it is since ${stored.keptAsItIs.since.slice(0, 10)} (${stored.keptAsItIs.why}). Nothing was written; lift this on the page of the case first.`,
  );
}

/** @throws StorageError `not-found` where a case names a list that is not in the record. */
export function refuseUnknownList(reader: Reader, listId: string | null): void {
  if (listId !== null)
    found(
      recordsOf(reader, 'lists').find(({ id }) => id === listId),
      `The list ${listId}`,
    );
}

function updated(draft: Draft, changed: Case, what: string, now: string): Case {
  const stored = found(findIn(draft, 'cases', changed.id), `The case ${changed.code}`);
  if (stored.version !== changed.version) throw new StaleVersionError(`Case ${stored.code}`);
  if (changed.listId !== stored.listId) refuseUnknownList(draft, changed.listId);
  const next = checked(
    caseSchema,
    {
      ...changed,
      invented: stored.invented,
      version: stored.version + 1,
      history: [...stored.history, { at: now, what }],
    },
    `Case ${changed.code}`,
  );
  refuseIfKept(stored, next);
  return next;
}

export const caseVerbs = (
  shelf: Shelf,
): Pick<Store, 'cases' | 'caseById' | 'recordCase' | 'recordCases' | 'updateCase' | 'updateCases'> => {
  const updateCases: Store['updateCases'] = (coming, what, now, onto) =>
    shelf.change((draft) => {
      const list = onto && append(draft, 'lists', (id) => checked(listRecordSchema, { ...onto, id }, 'The list'));
      const changed = list ? coming.map((each) => ({ ...each, listId: list.id })) : coming;
      const lineOf = (index: number) => (typeof what === 'string' ? what : (what[index] ?? 'Changed'));
      const next = changed.map((each, index) => updated(draft, each, lineOf(index), now));
      const ids = new Set(next.map(({ id }) => id));
      if (ids.size < next.length) throw new StorageError('invalid', 'One case is named twice. Nothing was written.');
      refuseTakenCodes(draft, next);
      put(draft, 'cases', next);
      return next;
    });
  return {
    cases: async () => casesInOrder(shelf),
    caseById: async (id) => findIn(shelf, 'cases', id),
    recordCase: (newCase) =>
      shelf.change((draft) => {
        const id = freshIds(draft, 'cases').next().value;
        refuseTakenCodes(draft, [{ id: null, code: newCase.code }]);
        refuseUnknownList(draft, newCase.listId);
        const record = checked(caseSchema, { ...newCase, id, version: 1, history: [] }, `Case ${newCase.code}`);
        put(draft, 'cases', [record]);
        return record;
      }),
    recordCases: (listOrId, coming) =>
      shelf.change((draft) => {
        refuseTakenCodes(
          draft,
          coming.map(({ code }) => ({ id: null, code })),
        );
        const list =
          typeof listOrId === 'string' || listOrId === null
            ? null
            : append(draft, 'lists', (id) => checked(listRecordSchema, { ...listOrId, id }, 'The list'));
        const listId = list?.id ?? (listOrId as string | null);
        refuseUnknownList(draft, listId);
        const ids = freshIds(draft, 'cases');
        const last = Math.floor(Math.max(0, ...lastSequences(draft)));
        const cases = coming.map((each, index) => {
          const made = { id: ids.next().value, listId, sequence: last + 1 + index, version: 1, history: [] };
          return checked(caseSchema, { ...each, ...made }, `Case ${each.code}`);
        });
        put(draft, 'cases', cases);
        return { list, cases };
      }),
    updateCases,
    updateCase: async (changed, what, now) => found((await updateCases([changed], what, now))[0], changed.code),
  };
};
