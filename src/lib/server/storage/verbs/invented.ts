import { emptyProfile, profileSchema } from '../../../model';
import { atOnce } from '../../../turns';
import { ledgerOf } from '../store-ledger';
import { mapRecords, recordsOf } from '../numbered';
import { StorageError, type Everything, type Store } from '../port';
import { allOf, drop } from '../sharded';
import type { Draft, Shelf } from '../shelf';
import { casesInOrder } from './cases';
import { dropDraftsOf } from './erase';
import { fillWith, isEmpty, prepared } from './everything';
import { referencesOf } from './references';
import { proceduresOf } from './settings';

const marked = <T extends { invented: boolean }>(records: readonly T[]) =>
  records.map((record) => ({ ...record, invented: true }));

function load(draft: Draft, everything: Everything): void {
  if (!isEmpty(draft))
    throw new StorageError(
      'in-use',
      casesInOrder(draft).some((each) => each.invented)
        ? 'An invented surgeon is already here. Remove it first; nothing was written.'
        : 'There are cases of your own in this record, and an invented surgeon is not mixed with them. Nothing was written.',
    );
  const profileBefore = draft.read('profile')?.profile ?? null;
  const known = new Set(proceduresOf(draft).map(({ id }) => id));
  const procedures = everything.procedures.filter(({ id }) => !known.has(id));
  const record = {
    ...everything,
    procedures,
    cases: marked(everything.cases),
    goals: marked(everything.goals),
    reflections: marked(everything.reflections),
    references: marked(everything.references),
  };
  fillWith(draft, atOnce(prepared(record, 'The invented surgeon')));
  draft.write('ledger', {
    ...ledgerOf(draft),
    invented: {
      listIds: everything.lists.map(({ id }) => id),
      procedureIds: procedures.map(({ id }) => id),
      profileBefore,
    },
  });
}

/**
 * What was written while looking round is removed too where it rests on an invented case; own cases and their lists
 * stay.
 */
function remove(draft: Draft): void {
  const ledger = ledgerOf(draft);
  const cases = casesInOrder(draft).filter((each) => each.invented);
  const caseIds = new Set(cases.map(({ id }) => id));
  const onInvented = (ids: readonly string[]) => ids.some((id) => caseIds.has(id));
  const goals = recordsOf(draft, 'goals').filter((goal) => goal.invented || onInvented(goal.baseline.caseIds));
  const goalIds = new Set(goals.map(({ id }) => id));

  drop(draft, 'cases', caseIds);
  mapRecords(draft, 'goals', (goal) => (goalIds.has(goal.id) ? null : goal));
  mapRecords(draft, 'results', (result) => (goalIds.has(result.goalId) ? null : result));
  drop(
    draft,
    'reflections',
    allOf(draft, 'reflections')
      .filter(({ invented, caseIds: ids, goalId }) => invented || onInvented(ids) || (goalId && goalIds.has(goalId)))
      .map(({ id }) => id),
  );
  for (const { id, invented } of referencesOf(draft)) if (invented) draft.remove(`reference/${id}`);
  dropDraftsOf(draft, cases);
  if (!ledger.invented) return;

  const { listIds, procedureIds, profileBefore } = ledger.invented;
  const left = casesInOrder(draft);
  const usedLists = new Set(left.map(({ listId }) => listId));
  const usedProcedures = new Set(left.map(({ procedureId }) => procedureId));
  mapRecords(draft, 'lists', (list) => (listIds.includes(list.id) && !usedLists.has(list.id) ? null : list));
  draft.write('procedures', {
    records: proceduresOf(draft).filter(({ id }) => !procedureIds.includes(id) || usedProcedures.has(id)),
  });
  draft.write('profile', { profile: profileBefore ?? profileSchema.parse(emptyProfile) });
  draft.write('ledger', { ...ledger, invented: null });
}

export const inventedVerbs = (shelf: Shelf): Pick<Store, 'loadInvented' | 'removeInvented'> => ({
  loadInvented: (everything) => shelf.change((draft) => load(draft, everything)),
  removeInvented: () => shelf.change(remove),
});
