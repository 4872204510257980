import { error, fail, redirect } from '@sveltejs/kit';
import { attempt } from '$lib/server/attempt';
import { loadCautions } from '$lib/server/content';
import { holdParts, sentParts } from '$lib/server/held-import';
import { forgetSheets, rememberedSheets, rememberSheets } from '$lib/server/remembered-sheets';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => ({
  sheets: await rememberedSheets(locals.store),
  people: loadCautions()['no-patient-data'].paragraphs,
  /** Asked for where codes that look like a patient's are the surgeon's own. */
  codes: url.searchParams.get('codes') === 'own',
});

export const actions = {
  /** Holds what was sent between preview and confirm; it is gone after an hour. */
  hold: async ({ locals, request }) => {
    const form = await request.formData();
    const sent = await sentParts(form);
    if ('problem' in sent)
      return fail(400, {
        errors: [{ field: sent.field, message: sent.problem }],
        cells: String(form.get('cells') ?? ''),
      });
    const { done: first, refused } = await attempt('cells', () =>
      holdParts(locals.store, sent.parts, locals.now, form.get('ownCodes') === 'yes'),
    );
    if (refused) return fail(409, { errors: [refused], cells: String(form.get('cells') ?? '') });
    if (!first) error(400, 'Nothing was sent.');
    await rememberSheets(locals.store, form.getAll('rowsSheet').map(String), form.getAll('sheetLeft').map(String));
    redirect(303, `/cases/bring-in/${first.id}`);
  },

  forgetSheets: async ({ locals }) => {
    await forgetSheets(locals.store);
    redirect(303, '/cases/bring-in');
  },
} satisfies Actions;
