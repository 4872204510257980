import { fail, redirect } from '@sveltejs/kit';
import { newProcedureFromForm, stepRowsOffered } from '$lib/rooms/settings/procedures/new-procedure';
import { errorsOf } from '$lib/rooms/settings/procedures/problems';
import { attempt } from '$lib/server/attempt';
import { keepProcedure } from '$lib/server/edit-procedure';
import { fieldsOf } from '$lib/server/form-fields';
import { proceduresOf } from '$lib/server/procedures';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals }) => ({
  likes: (await proceduresOf(locals.store)).map(({ id, name }) => ({ value: id, label: `as in ${name}` })),
  main: (await locals.store.profile()).procedureId,
  rows: stepRowsOffered({}),
});

export const actions = {
  rows: async ({ request }) => {
    const values = fieldsOf(await request.formData());
    return { values, errors: [], rows: stepRowsOffered(values) };
  },

  make: async ({ locals, request }) => {
    const values = fieldsOf(await request.formData());
    const made = newProcedureFromForm(values, await proceduresOf(locals.store));
    const errors = made.errors.length > 0 ? made.errors : errorsOf(made.procedure);
    if (errors.length > 0) return fail(400, { values, errors, rows: stepRowsOffered(values) });
    const { refused } = await attempt('name', () => keepProcedure(locals.store, null, made.procedure));
    if (refused) return fail(409, { values, errors: [refused], rows: stepRowsOffered(values) });
    redirect(303, `/settings/procedures/${made.procedure.id}?said=made`);
  },
} satisfies Actions;
