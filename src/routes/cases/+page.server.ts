import { fail, redirect } from '@sveltejs/kit';
import { casesView, filterFrom } from '$lib/rooms/cases/cases-view';
import { nextStep } from '$lib/rooms/cases/next-step';
import { takenWords } from '$lib/rooms/bring-in/import-words';
import { hiddenCaseIds, hiddenTimes } from '$lib/rooms/goals/hidden-times';
import { attempt } from '$lib/server/attempt';
import { loadCautions } from '$lib/server/content';
import { heldUntil } from '$lib/server/held-import';
import { clockTime } from '$lib/server/local-time';
import { readRecord } from '$lib/server/record';
import { saidIn } from '$lib/server/said-in';
import { hiddenTimesWords } from '$lib/words/hidden-until';
import type { Actions, PageServerLoad } from './$types';

const SAID: Record<string, string> = {
  added: 'The case is in the record.',
  erased: 'The case was erased everywhere: from the record, its history and drafts. Files you exported still hold it.',
  list: 'The list is stored.',
  taken: 'The cases are in the record.',
  away: 'The file was put away; nothing of it is kept.',
  undone: 'The whole import was taken back.',
  shown: 'Times of the running window are shown. That was noted; the result still comes at twenty.',
};

export const load: PageServerLoad = async ({ locals, url }) => {
  const record = await readRecord(locals.store);
  const imported = url.searchParams.get('import');
  const done = (await locals.store.imports()).find(({ id }) => id === imported);
  return {
    view: casesView(record, hiddenCaseIds(record), filterFrom(url.searchParams)),
    hiding: hiddenTimes(record).map(({ goalId, caseIds }) => ({ goalId, said: hiddenTimesWords(caseIds.length) })),
    codes: loadCautions().codes.paragraphs,
    said: saidIn(SAID, url),
    added: url.searchParams.get('said') === 'added',
    next: nextStep(record),
    waiting: (await locals.store.heldImports(locals.now)).map((held) => ({
      id: held.id,
      fileName: held.fileName,
      until: clockTime(heldUntil(held)),
    })),
    imported: done
      ? {
          id: done.id,
          undone: done.undone,
          words: takenWords({
            added: done.added.length,
            changed: done.replaced.length,
            references: done.referencesAdded.length,
          }),
        }
      : null,
  };
};

export const actions = {
  putAway: async ({ locals, request }) => {
    const id = String((await request.formData()).get('import') ?? '');
    const { refused } = await attempt('waiting', () => locals.store.dropHeldImport(id));
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/cases?said=away');
  },

  undoImport: async ({ locals, request }) => {
    const id = String((await request.formData()).get('import') ?? '');
    const { refused } = await attempt('undo', () => locals.store.undoImport(id, locals.now));
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/cases?said=undone');
  },

  showTimes: async ({ locals, request }) => {
    const id = String((await request.formData()).get('goal') ?? '');
    const goal = (await locals.store.goals()).find((each) => each.id === id);
    if (!goal) return fail(404, { errors: [{ field: 'show', message: 'That goal is no longer in the record.' }] });
    const { refused } = await attempt('show', () =>
      locals.store.changeGoal(goal.id, (stored) => ({ ...stored, timesShown: [...stored.timesShown, locals.now] })),
    );
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/cases?said=shown');
  },
} satisfies Actions;
