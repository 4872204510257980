import { fail, redirect } from '@sveltejs/kit';
import { randomInt } from 'node:crypto';
import { nextListFromForm, planFromForm, timingPlanView } from '$lib/rooms/lists/timing-plan-view';
import { fieldsOf } from '$lib/server/form-fields';
import type { Actions, PageServerLoad } from './$types';

const SEEDS = 2 ** 31;

export const load: PageServerLoad = async ({ locals, url }) => {
  const { timingPlan } = await locals.store.profile();
  const asked = ['when', 'operated'].some((name) => url.searchParams.has(name));
  const values = Object.fromEntries([...url.searchParams].map(([name, text]) => [name, [text]]));
  const { list, errors } = asked ? nextListFromForm(values) : { list: null, errors: [] };
  return {
    view: timingPlanView(timingPlan, list),
    list: { values, errors },
    said: url.searchParams.get('said') === 'stored',
  };
};

export const actions = {
  plan: async ({ locals, request }) => {
    const values = fieldsOf(await request.formData());
    const profile = await locals.store.profile();
    const { plan, errors } = planFromForm(values, profile.timingPlan, randomInt(SEEDS));
    if (errors.length > 0) return fail(400, { errors, values });
    await locals.store.saveProfile({ ...profile, timingPlan: plan });
    redirect(303, '/cases/timing-plan?said=stored');
  },
} satisfies Actions;
