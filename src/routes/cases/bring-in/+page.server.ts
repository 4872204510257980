import { fail, redirect } from '@sveltejs/kit';
import { loadCautions } from '$lib/server/content';
import { sentText } from '$lib/server/held-import';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = () => ({ people: loadCautions()['no-patient-data'].paragraphs });

export const actions = {
  /** Holds what was sent between preview and confirm; it is gone after a day. */
  hold: async ({ locals, request }) => {
    const sent = await sentText(await request.formData());
    if ('problem' in sent) return fail(400, { errors: [{ field: sent.field, message: sent.problem }] });
    const held = await locals.store.holdImport({ ...sent, heldAt: locals.now, choices: {} });
    redirect(303, `/cases/bring-in/${held.id}`);
  },
} satisfies Actions;
