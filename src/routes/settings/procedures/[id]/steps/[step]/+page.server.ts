import { error, fail, redirect } from '@sveltejs/kit';
import { errorsOf } from '$lib/rooms/settings/procedures/problems';
import { stepForm, stepFromForm } from '$lib/rooms/settings/procedures/step-form';
import type { Fields } from '$lib/rooms/forms/fields';
import { attempt } from '$lib/server/attempt';
import { keepProcedure, openProcedure } from '$lib/server/edit-procedure';
import { fieldsOf } from '$lib/server/form-fields';
import { revisionOf, staleForm } from '$lib/server/revision';
import type { Store } from '$lib/server/storage';
import type { Actions, PageServerLoad } from './$types';

/** The procedure and the step at this address; `new` is a step yet to come. */
async function found(store: Store, params: { id: string; step: string }) {
  const open = await openProcedure(store, params.id);
  if (!open) error(404, 'There is no such procedure in this record.');
  const stepId = params.step === 'new' ? null : params.step;
  const step = open.procedure.steps.find(({ id }) => id === stepId);
  if (stepId !== null && !step) error(404, `${open.procedure.name} has no step of this name.`);
  return { ...open, stepId, label: step?.label ?? 'A new step', retired: step?.retired ?? false };
}

export const load: PageServerLoad = async ({ locals, params }) => {
  const { procedure, shipped, use, stepId, label, retired } = await found(locals.store, params);
  return {
    procedure: { id: procedure.id, name: procedure.name },
    seen: revisionOf(stepForm(procedure, stepId, use, shipped).values),
    label,
    retired,
    timed: use.timed.get(params.step) ?? 0,
    view: stepForm(procedure, stepId, use, shipped),
  };
};

export const actions = {
  rows: async ({ locals, params, request }) => {
    const { procedure, shipped, use, stepId } = await found(locals.store, params);
    const values = fieldsOf(await request.formData());
    return { values, errors: [], blanks: stepForm(procedure, stepId, use, shipped, values).blanks };
  },

  store: async ({ locals, params, request }) => {
    const { procedure, shipped, use, stepId, record } = await found(locals.store, params);
    const values = fieldsOf(await request.formData());
    const stored = stepForm(procedure, stepId, use, shipped).values;
    const again: Fields = { ...values, seen: [revisionOf(stored)] };
    const stale = staleForm('label', values, stored, procedure.name);
    const goals = record.goals.filter(({ procedureId }) => procedureId === procedure.id);
    const typed = stepFromForm(values, procedure, stepId, { use, shipped, goals });
    const errors = [...typed.errors, ...errorsOf(typed.procedure)];
    const { blanks } = stepForm(procedure, stepId, use, shipped, values);
    if (stale) return fail(409, { values: again, errors: [stale], blanks });
    if (errors.length > 0) return fail(400, { values, errors, blanks });
    const { refused } = await attempt('label', () => keepProcedure(locals.store, procedure, typed.procedure));
    if (refused) return fail(409, { values, errors: [refused], blanks });
    redirect(303, `/settings/procedures/${procedure.id}?said=stored#step-${typed.stepId}`);
  },
} satisfies Actions;
