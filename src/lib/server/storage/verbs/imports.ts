import { inTurns } from '../../in-turns';
import { found } from '../checked';
import { frozen } from '../frozen';
import { mapRecords, numberOf, recordsOf } from '../numbered';
import { StorageError, type ImportRecord, type Store } from '../port';
import { readable } from '../readable-part';
import { allOf, drop, findIn, put } from '../sharded';
import type { Draft, Reader, Shelf } from '../shelf';
import { casesInOrder, refuseIfKept } from './cases';
import { dropDraftsOf } from './erase';
import { heldAs, importNames } from './held-imports';
import { checkedBatch, storedCasesOf, takeCases } from './import-cases';
import { takeLists } from './import-lists';
import { addReference } from './references';

const recordedIn = (reader: Reader, id: string) => {
  const document = reader.read(`imports/${id}`);
  return document?.state === 'recorded' ? document : null;
};

/** @throws StorageError `in-use` where something the surgeon decided or wrote rests on these cases */
function refuseIfRestedOn(reader: Reader, ids: ReadonlySet<string>): void {
  const any = (some: readonly string[]) => some.some((id) => ids.has(id));
  const rests = recordsOf(reader, 'goals').some(({ baseline }) => any(baseline.caseIds))
    ? 'a goal was started from its cases'
    : recordsOf(reader, 'results').some(({ baselineIds, windowIds }) => any([...baselineIds, ...windowIds]))
      ? 'a result was stored for its cases'
      : allOf(reader, 'reflections').some(({ caseIds }) => any(caseIds))
        ? 'a reflection was written about its cases'
        : null;
  if (rests)
    throw new StorageError(
      'in-use',
      `This import cannot be taken back as a whole: ${rests}, and that must not lose its basis. Nothing was changed. ` +
        'Leave a wrong case out on its own page, with a reason; or bring the corrected file in and choose the new values.',
    );
}

function takeBack(draft: Draft, id: string): ImportRecord {
  const { record, before } = found(recordedIn(draft, id), 'This import');
  if (record.undone) return record;
  const touched = new Set([...record.added, ...record.replaced]);
  refuseIfRestedOn(draft, touched);
  const there = [...touched].map((caseId) => findIn(draft, 'cases', caseId)).filter((each) => each !== null);
  for (const each of there) refuseIfKept(each, null);

  const versions = new Map(there.map((each) => [each.id, each.version]));
  // A version number is never reused, or a tab opened in between could overwrite what came back.
  const returning = before.flatMap((each) => {
    const version = versions.get(each.id);
    return version ? [{ ...each, version: version + 1 }] : [];
  });
  drop(draft, 'cases', record.added);
  put(draft, 'cases', frozen(returning));
  dropDraftsOf(
    draft,
    there.filter((each) => record.added.includes(each.id)),
  );
  const used = new Set(casesInOrder(draft).map(({ listId }) => listId));
  const listsGone = record.listsAdded.filter((listId) => !used.has(listId));
  if (listsGone.length > 0) mapRecords(draft, 'lists', (list) => (listsGone.includes(list.id) ? null : list));
  for (const referenceId of record.referencesAdded) draft.remove(`reference/${referenceId}`);

  const undone = frozen({ ...record, undone: true });
  draft.write(`imports/${id}`, { state: 'recorded', record: undone, before: [] });
  return undone;
}

export const importVerbs = (shelf: Shelf): Pick<Store, 'recordImport' | 'imports' | 'undoImport'> => ({
  recordImport: async (held, asked, textHash, now) => {
    const batch = await inTurns(checkedBatch(asked));
    return shelf.change((draft) => {
      const already = recordedIn(draft, held.id);
      if (already) return already.record; // confirmed twice, by a double click or a reload: once is enough
      found(heldAs(draft, held.id), 'This import');
      const replaced = storedCasesOf(draft, batch);
      const lists = takeLists(draft, batch, replaced);
      const added = takeCases(draft, batch, replaced, { held, listIdOf: lists.idOf, now });
      const references = batch.references.map((reference) => addReference(draft, reference));
      const record: ImportRecord = frozen({
        id: held.id,
        fileName: held.fileName,
        at: now,
        textHash,
        added,
        replaced: [...replaced.keys()],
        listsAdded: lists.added,
        referencesAdded: references.map(({ id }) => id),
        undone: false,
      });
      draft.write(`imports/${held.id}`, { state: 'recorded', record, before: [...replaced.values()] });
      return record;
    });
  },
  imports: async () =>
    importNames(shelf)
      .flatMap((name) => {
        const document = readable(() => shelf.read(name), null);
        return document?.state === 'recorded' ? [document.record] : [];
      })
      .sort((a, b) => numberOf(a.id) - numberOf(b.id)),
  undoImport: (id) => shelf.change((draft) => takeBack(draft, id)),
});
