import { error, fail, redirect } from '@sveltejs/kit';
import { errorsOf } from '$lib/rooms/settings/procedures/problems';
import { wordsForm, wordsFromForm } from '$lib/rooms/settings/procedures/words-form';
import type { Fields } from '$lib/rooms/forms/fields';
import { attempt } from '$lib/server/attempt';
import { loadCautions } from '$lib/server/content';
import { keepProcedure, openProcedure } from '$lib/server/edit-procedure';
import { fieldsOf } from '$lib/server/form-fields';
import { revisionOf, staleForm } from '$lib/server/revision';
import type { Store } from '$lib/server/storage';
import type { Actions, PageServerLoad } from './$types';

async function found(store: Store, id: string) {
  const open = await openProcedure(store, id);
  if (!open) error(404, 'There is no such procedure in this record.');
  return open;
}

export const load: PageServerLoad = async ({ locals, params }) => {
  const { procedure, use } = await found(locals.store, params.id);
  return {
    procedure: { id: procedure.id, name: procedure.name },
    seen: revisionOf(wordsForm(procedure, use).values),
    view: wordsForm(procedure, use),
    waiting: loadCautions().waiting.paragraphs,
  };
};

export const actions = {
  rows: async ({ locals, params, request }) => {
    const { procedure, use } = await found(locals.store, params.id);
    const values = fieldsOf(await request.formData());
    const { blankReasons, blankEvents } = wordsForm(procedure, use, values);
    return { values, errors: [], blankReasons, blankEvents };
  },

  store: async ({ locals, params, request }) => {
    const { procedure, use } = await found(locals.store, params.id);
    const values = fieldsOf(await request.formData());
    const stored = wordsForm(procedure, use).values;
    const again: Fields = { ...stored, ...values, seen: [revisionOf(stored)] };
    const stale = staleForm('words', values, stored, procedure.name);
    const typed = wordsFromForm(values, procedure, use);
    const errors = errorsOf(typed.procedure, typed.renamed);
    const { blankReasons, blankEvents } = wordsForm(procedure, use, values);
    if (stale) return fail(409, { values: again, errors: [stale], blankReasons, blankEvents });
    if (errors.length > 0) return fail(400, { values, errors, blankReasons, blankEvents });
    const { refused } = await attempt('words', () => keepProcedure(locals.store, procedure, typed.procedure));
    if (refused)
      return fail(409, {
        values: again,
        errors: [refused],
        blankReasons,
        blankEvents,
      });
    redirect(303, `/settings/procedures/${procedure.id}?said=stored`);
  },
} satisfies Actions;
