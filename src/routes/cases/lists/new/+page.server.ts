import { fail, redirect } from '@sveltejs/kit';
import { newListFromForm } from '$lib/rooms/lists/new-list';
import { attempt } from '$lib/server/attempt';
import { loadCautions } from '$lib/server/content';
import { datedFields } from '$lib/server/date-order';
import { readRecord } from '$lib/server/record';
import { recordNewList } from '$lib/server/new-list';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals }) => {
  const { procedures, profile } = await readRecord(locals.store);
  return {
    procedures: procedures.map(({ id, name }) => ({ value: id, label: name })),
    procedureId: profile.procedureId,
    people: loadCautions()['no-patient-data'].paragraphs,
  };
};

export const actions = {
  make: async ({ locals, request }) => {
    const fields = await datedFields(locals.store, await request.formData());
    const record = await readRecord(locals.store);
    const { form, errors } = newListFromForm(
      fields,
      new Set(record.cases.map(({ code }) => code)),
      record.procedures.map(({ id }) => id),
    );
    if (!form) return fail(400, { errors, values: fields });
    const { done, refused } = await attempt('first', () => recordNewList(locals.store, form));
    if (refused) return fail(409, { errors: [refused], values: fields });
    redirect(303, `/cases/lists/${done.id}?said=made`);
  },
} satisfies Actions;
