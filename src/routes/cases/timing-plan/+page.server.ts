import { fail, redirect } from '@sveltejs/kit';
import { randomInt } from 'node:crypto';
import { nextListFromForm, planFromForm, timingPlanView } from '$lib/rooms/lists/timing-plan-view';
import { textOf } from '$lib/rooms/forms/fields';
import { attempt } from '$lib/server/attempt';
import { withOrder } from '$lib/server/date-order';
import { fieldsOf } from '$lib/server/form-fields';
import { refuseIfStale, revisionOf } from '$lib/server/revision';
import type { Actions, PageServerLoad } from './$types';

const SEEDS = 2 ** 31;

export const load: PageServerLoad = async ({ locals, url }) => {
  const { timingPlan } = await locals.store.profile();
  const asked = ['when', 'operated'].some((name) => url.searchParams.has(name));
  const values = await withOrder(locals.store, fieldsOf(url.searchParams));
  const { list, errors } = asked ? nextListFromForm(values) : { list: null, errors: [] };
  return {
    view: timingPlanView(timingPlan, list),
    seen: revisionOf(timingPlan),
    list: { values, errors },
    said: url.searchParams.get('said') === 'stored',
  };
};

export const actions = {
  plan: async ({ locals, request }) => {
    const values = fieldsOf(await request.formData());
    const seed = randomInt(SEEDS);
    const { errors } = planFromForm(values, null, seed);
    if (errors.length > 0) return fail(400, { errors, values, seen: textOf(values, 'seen') });
    const { refused } = await attempt('plan', () =>
      locals.store.changeProfile((profile) => {
        const now = timingPlanView(profile.timingPlan, null).plan ?? 'no plan';
        refuseIfStale(textOf(values, 'seen'), profile.timingPlan, 'The timing plan', now);
        return { ...profile, timingPlan: planFromForm(values, profile.timingPlan, seed).plan };
      }),
    );
    if (refused) {
      const { timingPlan } = await locals.store.profile();
      return fail(409, { errors: [refused], values, seen: revisionOf(timingPlan) });
    }
    redirect(303, '/cases/timing-plan?said=stored');
  },
} satisfies Actions;
