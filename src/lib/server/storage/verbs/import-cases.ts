import { newCaseSchema, same, type Case, type NewCase } from '../../../model';
import { mapped, scaled, type Work } from '../../../turns';
import { checked, found } from '../checked';
import { frozen } from '../frozen';
import { recordsOf } from '../numbered';
import { placeInTime } from '../place-in-time';
import { StorageError, type HeldImport, type ImportBatch } from '../port';
import { findIn, freshIds, put } from '../sharded';
import type { Draft } from '../shelf';
import { casesInOrder, refuseIfKept, refuseTakenCodes } from './cases';

type Coming = { held: Pick<HeldImport, 'id' | 'fileName'>; listIdOf: ReadonlyMap<string, string>; now: string };

const listIdFor = (coming: NewCase, { listIdOf }: Coming) => {
  if (coming.list === null) return null;
  const id = listIdOf.get(coming.list);
  if (!id)
    throw new StorageError('invalid', `Case ${coming.code} names a list the file does not have: ${coming.list}.`);
  return id;
};

export const storedCasesOf = (draft: Draft, batch: ImportBatch): Map<string, Case> =>
  new Map(
    batch.replace.map(({ caseId, case: { code } }) => [caseId, found(findIn(draft, 'cases', caseId), `Case ${code}`)]),
  );

/**
 * The cases of an import, each checked; before the change, since a change is worked out in one go and thousands of
 * cases take a tenth of a second to check. What the change adds to them (ids, list, place, history) is the store's own.
 */
export function* checkedBatch(batch: ImportBatch): Work<ImportBatch> {
  const check = (each: NewCase) => checked(newCaseSchema, each, `Case ${each.code}`);
  const cases = yield* scaled(mapped(batch.cases, check), 0, 0.5);
  const replace = mapped(batch.replace, (each) => ({ ...each, case: check(each.case) }));
  return { ...batch, cases, replace: yield* scaled(replace, 0.5, 1) };
}

/** New values for a case already there. What the surgeon decided about it here (left out, its place) stays. */
function replacement(
  stored: Case,
  { case: { list: _, row, ...values }, timesSeen }: ImportBatch['replace'][number],
  listId: string | null,
  coming: Coming,
): Case {
  refuseIfKept(stored, null);
  const sameTimes = same(stored.stretches, values.stretches);
  const facts = new Set([...Object.keys(stored.facts), ...Object.keys(values.facts)]);
  const factChanges = [...facts]
    .map((factId) => ({ factId, before: stored.facts[factId] ?? null, after: values.facts[factId] ?? null }))
    .filter(({ before, after }) => before !== after)
    .map((change) => ({ ...change, at: coming.now }));
  return {
    ...stored,
    ...values,
    listId: stored.listId ?? listId,
    sequence: stored.sequence,
    // An eye called hard only after a long time was read would explain the time away.
    factChanges: timesSeen ? [...stored.factChanges, ...factChanges] : stored.factChanges,
    source: sameTimes ? stored.source : { kind: 'file', importId: coming.held.id, row },
    version: stored.version + 1,
    history: [...stored.history, { at: coming.now, what: `Values replaced from ${coming.held.fileName}, row ${row}` }],
  };
}

/** Puts the cases of a checked import into the record, all or none. @returns the ids of the new ones */
export function takeCases(
  draft: Draft,
  batch: ImportBatch,
  replaced: ReadonlyMap<string, Case>,
  coming: Coming,
): string[] {
  refuseTakenCodes(draft, [
    ...batch.replace.map(({ caseId, case: { code } }) => ({ id: caseId, code })),
    ...batch.cases.map(({ code }) => ({ id: null, code })),
  ]);
  const dates = new Map(recordsOf(draft, 'lists').map(({ id, when }) => [id, when.kind === 'date' ? when.date : null]));
  const dateOf = (listId: string | null) => (listId && dates.get(listId)) || null;
  const inFileOrder = [...batch.cases].sort((a, b) => a.sequence - b.sequence);
  const sequences = placeInTime(
    casesInOrder(draft).map(({ sequence, listId }) => ({ sequence, date: dateOf(listId) })),
    inFileOrder.map((each) => ({ date: dateOf(listIdFor(each, coming)) })),
  );
  const ids = freshIds(draft, 'cases');
  const added = inFileOrder.map((each, index): Case => {
    const { list: _, row, ...values } = each;
    return {
      ...values,
      id: ids.next().value,
      listId: listIdFor(each, coming),
      sequence: sequences[index] ?? each.sequence,
      source: { kind: 'file', importId: coming.held.id, row },
      factChanges: [],
      leftOut: null,
      keptAsItIs: null,
      invented: false,
      version: 1,
      history: [],
    };
  });
  const changed = batch.replace.map((each) =>
    replacement(found(replaced.get(each.caseId), `Case ${each.case.code}`), each, listIdFor(each.case, coming), coming),
  );
  put(draft, 'cases', frozen([...added, ...changed]));
  return added.map(({ id }) => id);
}
