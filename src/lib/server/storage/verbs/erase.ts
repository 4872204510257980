import type { Case, Erased, Goal, ListRecord } from '../../../model';
import { found } from '../checked';
import { ledgerOf } from '../store-ledger';
import { mapRecords } from '../numbered';
import type { PartOfGoal, Store } from '../port';
import { readable } from '../readable-part';
import { allOf, drop, findIn, put } from '../sharded';
import type { Draft, Shelf } from '../shelf';
import { importWithout, isTied, untied } from '../without-cases';
import { refuseIfKept } from './cases';
import { dropDrafts } from './drafts';

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
    if (![...document.record.added, ...document.record.replaced].includes(gone.id)) continue;
    draft.write(name, importWithout(document, new Set([gone.id])));
  }
}

const none: Erased = { cases: 0, answered: 0 };

const oneMore = ({ cases, answered }: Erased = none, { events }: Case): Erased => ({
  cases: cases + 1,
  answered: answered + (events === null ? 0 : 1),
});

/**
 * There is now one more untimed operation, and it is no longer known that nothing happened in it: it is asked again.
 */
export const asked = (list: ListRecord): ListRecord =>
  list.operated !== null && list.eventsAnsweredForAll ? { ...list, eventsAnsweredForAll: null } : list;

/** Counts say later why events are fewer; they hold nothing of the case. */
function countIn(goal: Goal, gone: Case, partOf: readonly PartOfGoal[]): Goal {
  const parts = partOf.filter(({ goalId }) => goalId === goal.id).map(({ part }) => part);
  if (parts.length === 0) return goal;
  const { baseline = none, window = none } = goal.erased ?? {};
  return {
    ...goal,
    erased: {
      baseline: parts.includes('baseline') ? oneMore(baseline, gone) : baseline,
      window: parts.includes('window') ? oneMore(window, gone) : window,
    },
  };
}

/**
 * Ids in goals and stored results stay: they are numbers made here that say nothing of the case,
 * and without them nobody could tell that a baseline case is missing.
 */
export const eraseVerbs = (shelf: Shelf): Pick<Store, 'eraseCase' | 'erasedCount'> => ({
  eraseCase: (id, _now, partOf = []) =>
    shelf.change((draft) => {
      const gone = found(findIn(draft, 'cases', id), `The case ${id}`);
      refuseIfKept(gone, null);
      const ids = new Set([id]);
      drop(draft, 'cases', ids);
      if (gone.listId !== null)
        mapRecords(draft, 'lists', (list) =>
          list.id === gone.listId ? { ...asked(list), erased: oneMore(list.erased, gone) } : list,
        );
      if (partOf.length > 0) mapRecords(draft, 'goals', (goal) => countIn(goal, gone, partOf));
      const tied = allOf(draft, 'reflections').filter((reflection) => isTied(reflection, ids));
      put(
        draft,
        'reflections',
        tied.map((reflection) => untied(reflection, ids)),
      );
      dropDraftsOf(draft, [gone]);
      eraseFromImports(draft, gone);
      draft.forget(id, gone.code);
      const ledger = ledgerOf(draft);
      draft.write('ledger', { ...ledger, erasedCases: ledger.erasedCases + 1 });
    }),
  erasedCount: async () => readable(() => ledgerOf(shelf).erasedCases, null),
});
