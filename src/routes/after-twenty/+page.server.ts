import { openGoal } from '$lib/assessment/goal-lines';
import { readAfter, readGoalLines } from '$lib/server/after';
import { loadCautions } from '$lib/server/content';
import { readRecord } from '$lib/server/record';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals }) => {
  const goal = openGoal(await locals.store.goals());
  const view = goal ? await readAfter(locals.store, await readRecord(locals.store), goal, locals.now) : null;
  // Read again: opening this page may have stored the result of a full window.
  const record = await readRecord(locals.store);
  return {
    view,
    lines: await readGoalLines(record),
    caution: loadCautions().standing.paragraphs,
  };
};
