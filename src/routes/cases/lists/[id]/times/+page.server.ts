import { error, fail, redirect } from '@sveltejs/kit';
import { storedNow } from '$lib/rooms/cases/stored-now';
import { textsOf } from '$lib/rooms/forms/fields';
import { hiddenCaseIds } from '$lib/rooms/goals/hidden-times';
import { casesOfGrid, stepsNotedLast, timeName, timesGrid } from '$lib/rooms/lists/list-times';
import { timesFromGrid } from '$lib/rooms/lists/list-times-form';
import { fieldsOf } from '$lib/server/form-fields';
import { changeCases } from '$lib/server/last-change';
import { keepNotedTimes, notedTimes } from '$lib/server/noted-times';
import { readRecord } from '$lib/server/record';
import { changedUnlessStale } from '$lib/server/stale-cases';
import type { Store } from '$lib/server/storage';
import type { Actions, PageServerLoad } from './$types';

async function listAnd(store: Store, id: string) {
  const record = await readRecord(store);
  const list = record.lists.find((each) => each.id === id);
  if (!list) error(404, 'There is no such list in the record.');
  return { record, list };
}

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const { record, list } = await listAnd(locals.store, params.id);
  const noted = await notedTimes(locals.store);
  const { procedure } = casesOfGrid(list, record);
  const known = new Set(procedure.steps.map(({ id }) => id));
  const asked = [url.searchParams.getAll('step'), noted.steps, stepsNotedLast(record, procedure.id)]
    .map((ids) => ids.filter((id) => known.has(id)))
    .find((ids) => ids.length > 0);
  return { grid: timesGrid(list, record, hiddenCaseIds(record), asked ?? []), figures: noted.figures };
};

export const actions = {
  /** Other steps, with all that was typed: nothing is stored. A step in which something was typed stays. */
  show: async ({ locals, params, request }) => {
    const fields = fieldsOf(await request.formData());
    const { record, list } = await listAnd(locals.store, params.id);
    const { rows, steps } = timesGrid(list, record, hiddenCaseIds(record), []);
    const wanted = new Set(textsOf(fields, 'step'));
    const typed = (stepId: string) =>
      rows.some(({ id, times }) => {
        const shown = times[stepId] ?? '';
        return (textsOf(fields, timeName(id, stepId))[0] ?? shown) !== shown;
      });
    return { values: fields, steps: steps.flatMap(({ id }) => (wanted.has(id) || typed(id) ? [id] : [])) };
  },
  store: async ({ locals, params, request }) => {
    const fields = fieldsOf(await request.formData());
    const { record, list } = await listAnd(locals.store, params.id);
    const { procedure, cases } = casesOfGrid(list, record);
    const steps = textsOf(fields, 'steps').filter((id) => procedure.steps.some((step) => step.id === id));
    const { changed, errors, figures } = timesFromGrid(fields, cases, procedure, steps, hiddenCaseIds(record));
    if (errors.length > 0) return fail(400, { errors, values: fields, steps });
    const not = await changedUnlessStale(
      { store: locals.store, fields, field: 'grid' },
      changed.map((each) => each.case),
      (view) => storedNow('times', view),
      (id) => `${id}.version`,
      () => changeCases(locals.store, changed, locals.now, () => [keepNotedTimes(locals.store, { figures, steps })]),
    );
    if (not) return fail(409, { errors: [not.error], values: not.fields, steps });
    redirect(303, `/cases/lists/${list.id}?said=times`);
  },
} satisfies Actions;
