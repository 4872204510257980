import { error, fail, redirect } from '@sveltejs/kit';
import { goalView } from '$lib/rooms/plan/goal-view';
import { agreedGoal } from '$lib/rooms/plan/new-goal';
import { decided } from '$lib/rooms/after-twenty/decisions';
import { attempt } from '$lib/server/attempt';
import { loadCautions } from '$lib/server/content';
import { readRecord } from '$lib/server/record';
import { StaleVersionError } from '$lib/server/storage';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const record = await readRecord(locals.store);
  const goal = record.goals.find(({ id }) => id === params.id);
  if (!goal) error(404, 'There is no goal at this address.');
  const cautions = loadCautions();
  return {
    goal: goalView(goal, record),
    said: url.searchParams.get('said'),
    supervision: cautions.supervision.paragraphs,
  };
};

export const actions = {
  agree: async ({ locals, params }) => {
    const record = await readRecord(locals.store);
    const goal = record.goals.find(({ id }) => id === params.id);
    if (!goal) error(404, 'There is no goal at this address.');
    if (goal.state !== 'draft')
      return fail(409, { errors: [{ field: 'agree', message: 'This goal is no longer a draft.' }] });
    const { refused } = await attempt('agree', () =>
      locals.store.changeGoal(goal.id, (stored) => {
        if (stored.state !== 'draft') throw new StaleVersionError('This goal');
        return agreedGoal(stored, record.cases, locals.now);
      }),
    );
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, `/plan/${goal.id}?said=agreed`);
  },
  drop: async ({ locals, params }) => {
    const record = await readRecord(locals.store);
    const goal = record.goals.find(({ id }) => id === params.id);
    if (!goal) error(404, 'There is no goal at this address.');
    if (goal.state !== 'draft')
      return fail(409, { errors: [{ field: 'drop', message: 'This goal is running; it is closed on After twenty.' }] });
    const { refused } = await attempt('drop', () =>
      locals.store.changeGoal(goal.id, (stored) => {
        if (stored.state !== 'draft') throw new StaleVersionError('This goal');
        return decided(stored, 'move-on', 'Not agreed; the draft was discarded.', locals.now);
      }),
    );
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/choose');
  },
} satisfies Actions;
