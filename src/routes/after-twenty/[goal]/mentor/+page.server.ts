import { error, fail, redirect } from '@sveltejs/kit';
import type { Goal } from '$lib/model';
import { textOf } from '$lib/rooms/forms/fields';
import { readReviewForm } from '$lib/rooms/mentor/review-form';
import { begun, written, type Rater } from '$lib/rooms/mentor/review-steps';
import { mentorView } from '$lib/rooms/mentor/mentor-view';
import { attempt } from '$lib/server/attempt';
import { loadCautions } from '$lib/server/content';
import { fieldsOf } from '$lib/server/form-fields';
import { stretchesOfGoal } from '$lib/server/mentor';
import { readRecord } from '$lib/server/record';
import { saidIn } from '$lib/server/said-in';
import { StaleVersionError } from '$lib/server/storage';
import type { Actions, PageServerLoad, RequestEvent } from './$types';

const SAID: Record<string, string> = {
  begun: 'The stretches are fixed. Print the sheet, or fill in your half here.',
  learner: 'Your half is stored.',
  mentor: 'The mentor’s half is stored. Both lie side by side.',
};

const goalOf = async (store: App.Locals['store'], id: string) => {
  const record = await readRecord(store);
  const goal = record.goals.find((each) => each.id === id);
  if (!goal) error(404, 'There is no goal at this address.');
  return { record, goal };
};

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const { record, goal } = await goalOf(locals.store, params.goal);
  const { points, paragraphs } = loadCautions()['mentor-review'];
  return {
    view: mentorView(record, goal, await stretchesOfGoal(record, goal), url.searchParams.get('correct')),
    how: points,
    notice: paragraphs,
    said: saidIn(SAID, url),
  };
};

/** A change of the goal as it stands at that moment; `null` from it: another page was quicker. */
const change = (store: App.Locals['store'], id: string, field: string, edit: (goal: Goal) => Goal | null) =>
  attempt(field, () =>
    store.changeGoal(id, (stored) => {
      const changed = edit(stored);
      if (!changed) throw new StaleVersionError('This review');
      return changed;
    }),
  );

/** One half, by whose turn it is; what was typed comes back with what is wrong. */
async function store(by: Rater, { locals, params, request }: RequestEvent) {
  const values = fieldsOf(await request.formData());
  const { goal } = await goalOf(locals.store, params.goal);
  const { form, errors, looksLike } = readReviewForm(values, goal, locals.persons?.none);
  if (errors.length > 0 || looksLike.length > 0) return fail(400, { errors, looksLike, values });
  const { refused } = await change(locals.store, goal.id, 'saw', (stored) =>
    written(stored, by, { at: locals.now, ...form }, textOf(values, 'replaces')),
  );
  if (refused) return fail(409, { errors: [refused], looksLike: [], values });
  redirect(303, `/after-twenty/${goal.id}/mentor?said=${by}`);
}

export const actions = {
  begin: async ({ locals, params }) => {
    const { record, goal } = await goalOf(locals.store, params.goal);
    const stretches = goal.checkpoints.length > 0 ? await stretchesOfGoal(record, goal) : null;
    if (!stretches)
      return fail(400, { errors: [{ field: 'begin', message: 'There is nothing to watch yet.' }], looksLike: [] });
    const { refused } = await change(locals.store, goal.id, 'begin', (stored) => begun(stored, stretches, locals.now));
    if (refused) return fail(409, { errors: [refused], looksLike: [] });
    redirect(303, `/after-twenty/${goal.id}/mentor?said=begun`);
  },
  learner: (event) => store('learner', event),
  mentor: (event) => store('mentor', event),
} satisfies Actions;
