import { fail, redirect } from '@sveltejs/kit';
import { textOf, type Fields } from '$lib/rooms/forms/fields';
import { aheadOfTimes, draftFields, draftKey, timesView } from '$lib/rooms/cases/new-case-view';
import { procedureOf } from '$lib/model';
import { typedFacts } from '$lib/rooms/cases/typed-case';
import { typedTimes } from '$lib/rooms/cases/typed-times';
import { attempt } from '$lib/server/attempt';
import { fieldsOf } from '$lib/server/form-fields';
import { readRecord } from '$lib/server/record';
import { recordTyped } from '$lib/server/typed-case';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => {
  const code = url.searchParams.get('code') ?? '';
  const draft = draftFields(await locals.store.draft(draftKey(code)));
  if (!draft) redirect(303, '/cases/new');
  const record = await readRecord(locals.store);
  const ahead = aheadOfTimes(draft, record.lists, locals.now.slice(0, 10));
  return { view: timesView(procedureOf(record, textOf(draft, 'procedure')), code, ahead) };
};

export const actions = {
  save: async ({ locals, request, url }) => {
    const code = url.searchParams.get('code') ?? '';
    const fields: Fields = fieldsOf(await request.formData());
    const draft = draftFields(await locals.store.draft(draftKey(code)));
    if (!draft)
      return fail(409, {
        errors: [{ field: 'time', message: 'The first page of this case is no longer there.' }],
        values: fields,
      });
    const record = await readRecord(locals.store);
    const procedure = procedureOf(record, textOf(draft, 'procedure'));
    const first = typedFacts(draft, procedure, record.cases, record.lists);
    const later = textOf(fields, 'later') === 'yes';
    const second = later
      ? { times: { stretches: [], returnsNoted: {}, protectedSeen: {} }, errors: [] }
      : typedTimes(fields, procedure);
    const errors = [...first.errors, ...second.errors];
    if (errors.length > 0) return fail(400, { errors, values: fields });

    const { refused } = await attempt('time', () =>
      recordTyped(locals.store, {
        procedure,
        typed: first.typed,
        times: second.times,
        source: { kind: !later && textOf(fields, 'byHand') === 'yes' ? 'by-hand' : 'typed' },
      }),
    );
    if (refused) return fail(409, { errors: [refused], values: fields });
    // The case is stored by now: a draft that cannot be removed is no reason to say otherwise.
    await attempt('time', () => locals.store.dropDraft(draftKey(code)));
    redirect(303, '/cases?said=added');
  },
} satisfies Actions;
