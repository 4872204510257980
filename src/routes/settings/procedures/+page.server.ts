import { fail, redirect } from '@sveltejs/kit';
import { proceduresView } from '$lib/rooms/settings/procedures/procedures-view';
import { loadProcedures } from '$lib/server/content';
import { undoProcedure } from '$lib/server/edit-procedure';
import { readRecord } from '$lib/server/record';
import { saidIn } from '$lib/server/said-in';
import type { Actions, PageServerLoad } from './$types';

const SAID: Record<string, string> = {
  removed: 'The procedure was removed.',
  undone: 'The procedure is here again.',
};

export const load: PageServerLoad = async ({ locals, url }) => {
  const said = url.searchParams.get('said') ?? '';
  return {
    procedures: proceduresView(await readRecord(locals.store), loadProcedures()),
    said: saidIn(SAID, url),
    removed: said === 'removed' ? url.searchParams.get('id') : null,
  };
};

export const actions = {
  undo: async ({ locals, request }) => {
    const id = String((await request.formData()).get('id') ?? '');
    const back = await undoProcedure(locals.store, id);
    if (!back) return fail(409, { errors: [{ field: 'undo', message: 'That is no longer kept.' }] });
    redirect(303, '/settings/procedures?said=undone');
  },
} satisfies Actions;
