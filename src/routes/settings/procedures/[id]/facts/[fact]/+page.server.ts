import { error, fail, redirect } from '@sveltejs/kit';
import { factForm, factFromForm } from '$lib/rooms/settings/procedures/fact-form';
import { errorsOf } from '$lib/rooms/settings/procedures/problems';
import type { Fields } from '$lib/rooms/forms/fields';
import { attempt } from '$lib/server/attempt';
import { keepProcedure, openProcedure } from '$lib/server/edit-procedure';
import { fieldsOf } from '$lib/server/form-fields';
import { revisionOf, staleForm } from '$lib/server/revision';
import type { Store } from '$lib/server/storage';
import type { Actions, PageServerLoad } from './$types';

/** The procedure and the fact at this address; `new` is a fact yet to come. */
async function found(store: Store, params: { id: string; fact: string }) {
  const open = await openProcedure(store, params.id);
  if (!open) error(404, 'There is no such procedure in this record.');
  const factId = params.fact === 'new' ? null : params.fact;
  const fact = open.procedure.facts.find(({ id }) => id === factId);
  if (factId !== null && !fact) error(404, `${open.procedure.name} asks no fact of this name.`);
  return { ...open, factId, label: fact?.label ?? 'A new fact of the eye' };
}

export const load: PageServerLoad = async ({ locals, params }) => {
  const { procedure, use, factId, label } = await found(locals.store, params);
  return {
    procedure: { id: procedure.id, name: procedure.name },
    seen: revisionOf(factForm(procedure, factId, use).values),
    label,
    view: factForm(procedure, factId, use),
  };
};

export const actions = {
  rows: async ({ locals, params, request }) => {
    const { procedure, use, factId } = await found(locals.store, params);
    const values = fieldsOf(await request.formData());
    return { values, errors: [], blanks: factForm(procedure, factId, use, values).blanks };
  },

  store: async ({ locals, params, request }) => {
    const { procedure, use, factId } = await found(locals.store, params);
    const values = fieldsOf(await request.formData());
    const stored = factForm(procedure, factId, use).values;
    const again: Fields = { ...values, seen: [revisionOf(stored)] };
    const stale = staleForm('label', values, stored, procedure.name);
    const typed = factFromForm(values, procedure, factId, use);
    const errors = [...typed.errors, ...errorsOf(typed.procedure, typed.renamed)];
    const { blanks } = factForm(procedure, factId, use, values);
    if (stale) return fail(409, { values: again, errors: [stale], blanks });
    if (errors.length > 0) return fail(400, { values, errors, blanks });
    const { refused } = await attempt('label', () => keepProcedure(locals.store, procedure, typed.procedure));
    if (refused) return fail(409, { values, errors: [refused], blanks });
    redirect(303, `/settings/procedures/${procedure.id}?said=stored#fact-${typed.factId}`);
  },
} satisfies Actions;
