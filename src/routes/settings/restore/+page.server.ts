import { fail, redirect } from '@sveltejs/kit';
import { attempt } from '$lib/server/attempt';
import { readEverything } from '$lib/server/backup';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals }) => ({ cases: (await locals.store.cases()).length });

export const actions = {
  restore: async ({ locals, request }) => {
    const file = (await request.formData()).get('file');
    if (!(file instanceof File) || file.size === 0)
      return fail(400, { errors: [{ field: 'file', message: 'Choose the file that was exported before.' }] });
    const read = readEverything(await file.text());
    if ('problem' in read) return fail(400, { errors: [{ field: 'file', message: read.problem }] });
    const { refused } = await attempt('file', () => locals.store.restoreEverything(read.everything));
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/settings?said=restored');
  },
} satisfies Actions;
