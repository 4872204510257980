import { redirect } from '@sveltejs/kit';
import { openGoals } from '$lib/rooms/goals/goal-standing';
import { readGoalLines } from '$lib/server/after';
import { readRecord } from '$lib/server/record';
import type { PageServerLoad } from './$types';

/** The goal that runs has its own address, so that a form of it that comes back is about the same goal. */
export const load: PageServerLoad = async ({ locals }) => {
  const record = await readRecord(locals.store);
  const [open] = openGoals(record);
  if (open) redirect(307, `/after-twenty/${open.goal.id}`);
  return { lines: await readGoalLines(record) };
};
