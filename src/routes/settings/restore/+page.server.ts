import { fail, redirect } from '@sveltejs/kit';
import { BACKUP_MOST } from '$lib/server/backup';
import { restoreSent } from '$lib/server/restore';
import type { Actions, PageServerLoad } from './$types';

/** A case with a dozen steps takes about a kilobyte. */
const CASE_BYTES = 1000;

export const load: PageServerLoad = async ({ locals }) => ({
  cases: (await locals.store.cases()).length,
  most: BACKUP_MOST / 1e6,
  mostCases: (BACKUP_MOST / CASE_BYTES).toLocaleString('en-GB'),
});

export const actions = {
  restore: async ({ locals, request }) => {
    const restored = await restoreSent(request, locals.store);
    if (restored.problem !== null)
      return fail(restored.status, { errors: [{ field: 'file', message: restored.problem }] });
    redirect(303, `/settings?said=${restored.missing.length > 0 ? 'part' : 'restored'}`);
  },
} satisfies Actions;
