import { error } from '@sveltejs/kit';
import { render } from 'svelte/server';
import AfterRun from '$lib/charts/AfterRun.svelte';
import { svgFile } from '$lib/charts/svg-file';
import { readAfter } from '$lib/server/after';
import { readRecord } from '$lib/server/record';
import { svgResponse } from '$lib/server/svg-response';
import type { RequestHandler } from './$types';

/** The run of cases as a file; what the screen keeps from view is not in it either. */
export const GET: RequestHandler = async ({ locals, params }) => {
  const record = await readRecord(locals.store);
  const goal = record.goals.find(({ id }) => id === params.goal);
  if (!goal) error(404, 'There is no goal at this address.');
  const { time } = await readAfter(locals.store, record, goal, locals.now);
  const run = time.kind === 'result' || time.kind === 'so-far' ? time.run : null;
  if (!run) error(404, 'No times are shown for this goal yet.');
  const input = {
    cases: run.cases,
    periods: run.periods,
    limits: run.limits,
    one: '100',
    lanes: ['lists', 'notes', 'events'] as const,
  };
  const { body } = render(AfterRun, { props: { input, label: run.title } });
  const svg = svgFile(body, { title: run.title, reading: run.reading, key: run.key });
  if (!svg) error(404, 'There is nothing to draw.');
  return svgResponse(svg, `after-twenty-${goal.stepId}`);
};
