import { fail, redirect } from '@sveltejs/kit';
import { attempt } from '$lib/server/attempt';
import { textOf, textsOf } from '$lib/rooms/forms/fields';
import { draftFields, draftKey, newCaseView } from '$lib/rooms/cases/new-case-view';
import { procedureOf } from '$lib/model';
import { typedFacts } from '$lib/rooms/cases/typed-case';
import { loadCautions } from '$lib/server/content';
import { datedFields } from '$lib/server/date-order';
import { readRecord } from '$lib/server/record';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => {
  const record = await readRecord(locals.store);
  const code = url.searchParams.get('code');
  const draft = code === null ? null : draftFields(await locals.store.draft(draftKey(code)));
  const chosen = url.searchParams.get('procedure') ?? (draft && textOf(draft, 'procedure'));
  const texts = loadCautions();
  return {
    view: newCaseView(record, procedureOf(record, chosen || record.profile.procedureId)),
    draft,
    /** Timed in a recording, not typed, from here on. */
    recording: url.searchParams.get('to') === 'recording',
    texts: {
      people: texts['no-patient-data'].paragraphs,
      field: texts['event-field'].paragraphs,
      prompts: texts['event-prompts'],
    },
  };
};

export const actions = {
  facts: async ({ locals, request }) => {
    const fields = await datedFields(locals.store, await request.formData());
    const record = await readRecord(locals.store);
    const procedure = procedureOf(record, textOf(fields, 'procedure'));
    const { typed, errors } = typedFacts(fields, procedure, record.cases, record.lists);
    errors.push(...(locals.persons?.errorsIn(['newListLabel'], 'label') ?? []));
    if (errors.length > 0) return fail(400, { errors, values: fields });
    const kept = Object.fromEntries(
      Object.keys(fields)
        .filter((name) => name !== 'to')
        .map((name) => [name, textsOf(fields, name)]),
    );
    const { refused } = await attempt('code', () => locals.store.saveDraft(draftKey(typed.code), JSON.stringify(kept)));
    if (refused) return fail(409, { errors: [refused], values: fields });
    const next = textOf(fields, 'to') === 'recording' ? '/cases/time' : '/cases/new/times';
    redirect(303, `${next}?code=${encodeURIComponent(typed.code)}`);
  },
} satisfies Actions;
