import { goalSchema, same, storedResultSchema } from '../../../model';
import { checked, found } from '../checked';
import { append, mapRecords, recordsOf } from '../numbered';
import { StorageError, type Store } from '../port';
import type { Reader, Shelf } from '../shelf';

const goalOf = (reader: Reader, goalId: string) =>
  found(
    recordsOf(reader, 'goals').find(({ id }) => id === goalId),
    `The goal ${goalId}`,
  );

export const goalVerbs = (
  shelf: Shelf,
): Pick<Store, 'goals' | 'startGoal' | 'changeGoal' | 'results' | 'storeResult' | 'storeLasted'> => ({
  goals: async () => [...recordsOf(shelf, 'goals')],
  startGoal: (goal) =>
    shelf.change((draft) => append(draft, 'goals', (id) => checked(goalSchema, { ...goal, id }, 'The goal'))),
  changeGoal: (id, edit) =>
    shelf.change((draft) => {
      const stored = goalOf(draft, id);
      const changed = checked(goalSchema, { ...edit(stored), id }, 'The goal');
      // A result must never move because its baseline cases did: fixed on the day the goal begins to run.
      if (stored.state !== 'draft' && !same(changed.baseline, stored.baseline))
        throw new StorageError(
          'invalid',
          'The baseline cases of a goal are fixed on the day it is set. Nothing was written; close this goal and set a new one.',
        );
      mapRecords(draft, 'goals', (before) => (before.id === id ? changed : before));
      return changed;
    }),

  results: async () => [...recordsOf(shelf, 'results')],
  storeResult: (result) =>
    shelf.change((draft) => {
      goalOf(draft, result.goalId);
      const same = recordsOf(draft, 'results').some(
        ({ goalId, look }) => goalId === result.goalId && look === result.look,
      );
      if (same)
        throw new StorageError(
          'already-there',
          `This goal already has its ${result.look} result; a result is stored once and shown as it was. Nothing was written.`,
        );
      return append(draft, 'results', (id) => checked(storedResultSchema, { ...result, id }, 'The result'));
    }),
  storeLasted: (resultId, read) =>
    shelf.change((draft) => {
      const stored = found(
        recordsOf(draft, 'results').find(({ id }) => id === resultId),
        `The result ${resultId}`,
      );
      const before = stored.lasted ?? [];
      const added = read.filter(({ lasting }) => !before.some((each) => each.lasting.nth === lasting.nth));
      if (added.length === 0) return stored;
      const lasted = [...before, ...added];
      const changed = checked(storedResultSchema, { ...stored, lasted }, 'The result');
      mapRecords(draft, 'results', (each) => (each.id === resultId ? changed : each));
      return changed;
    }),
});
