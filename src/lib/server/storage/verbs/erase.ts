import type { Case, Reflection } from '../../../model';
import { found } from '../checked';
import { ledgerOf } from '../ledger';
import { mapRecords } from '../numbered';
import type { Store } from '../port';
import { allOf, drop, findIn, put } from '../sharded';
import type { Draft, Shelf } from '../shelf';
import { refuseIfKept } from './cases';
import { dropDrafts } from './drafts';

/** A reflection without its ties to these cases; its text is about what was learned, and stays. */
export const untied = (reflection: Reflection, ids: ReadonlySet<string>): Reflection => ({
  ...reflection,
  caseIds: reflection.caseIds.filter((id) => !ids.has(id)),
  answers: reflection.answers.filter(({ caseId }) => !ids.has(caseId)),
  keptSeen: reflection.keptSeen.filter(({ caseId }) => !ids.has(caseId)),
  version: reflection.version + 1,
});

/** Does a draft name one of these cases, by id or by code? */
export function dropDraftsOf(draft: Draft, cases: readonly Pick<Case, 'id' | 'code'>[]): void {
  const ids = cases.map(({ id }) => new RegExp(`(^|[^a-z0-9])${id}(?![0-9])`));
  const codes = cases.map(({ code }) => JSON.stringify(code));
  dropDrafts(
    draft,
    (key, value) => ids.some((id) => id.test(key) || id.test(value)) || codes.some((code) => value.includes(code)),
  );
}

function eraseFromImports(draft: Draft, gone: Case): void {
  for (const name of draft.names('imports') as `imports/${string}`[]) {
    const document = draft.read(name);
    if (document?.state === 'held' && document.held.text.includes(gone.code)) draft.remove(name);
    if (document?.state !== 'recorded') continue;
    const { record, before } = document;
    if (![...record.added, ...record.replaced].includes(gone.id)) continue;
    draft.write(name, {
      state: 'recorded',
      record: {
        ...record,
        added: record.added.filter((id) => id !== gone.id),
        replaced: record.replaced.filter((id) => id !== gone.id),
      },
      before: before.filter(({ id }) => id !== gone.id),
    });
  }
}

/**
 * Ids in goals and stored results stay: they are numbers made here that say nothing of the case,
 * and without them nobody could tell that a starting case is missing.
 */
export const eraseVerbs = (shelf: Shelf): Pick<Store, 'eraseCase' | 'erasedCount'> => ({
  eraseCase: (id) =>
    shelf.change((draft) => {
      const gone = found(findIn(draft, 'cases', id), `The case ${id}`);
      refuseIfKept(gone, null);
      const ids = new Set([id]);
      drop(draft, 'cases', ids);
      // Operated less timed is one more now, and nobody knows any more that nothing happened in it: it is asked anew.
      if (gone.listId !== null)
        mapRecords(draft, 'lists', (list) =>
          list.id === gone.listId && list.operated !== null && list.eventsAnsweredForAll
            ? { ...list, eventsAnsweredForAll: null }
            : list,
        );
      const tied = allOf(draft, 'reflections').filter(({ caseIds, answers, keptSeen }) =>
        [...caseIds, ...answers.map((each) => each.caseId), ...keptSeen.map((each) => each.caseId)].includes(id),
      );
      put(
        draft,
        'reflections',
        tied.map((reflection) => untied(reflection, ids)),
      );
      dropDraftsOf(draft, [gone]);
      eraseFromImports(draft, gone);
      const ledger = ledgerOf(draft);
      draft.write('ledger', { ...ledger, erasedCases: ledger.erasedCases + 1 });
    }),
  erasedCount: async () => ledgerOf(shelf).erasedCases,
});
