import { error } from '@sveltejs/kit';
import { render } from 'svelte/server';
import { CHANGE_AXES } from '$lib/charts/dot-axes';
import DotRows from '$lib/charts/DotRows.svelte';
import { svgFile } from '$lib/charts/svg-file';
import { readOverTime } from '$lib/server/over-time';
import { readRecord } from '$lib/server/record';
import { svgResponse } from '$lib/server/svg-response';
import type { RequestHandler } from './$types';

/** The drawing of Over time as a file, by the same marks as on the screen. */
export const GET: RequestHandler = async ({ locals, url }) => {
  const { answer } = (await readOverTime(await readRecord(locals.store), url.searchParams)).room;
  if (!answer) error(404, 'There is nothing to draw yet.');
  const { rows, title, reading, key } = answer;
  const { body } = render(DotRows, { props: { rows, axes: CHANGE_AXES, label: title } });
  const svg = svgFile(body, { title, reading, key });
  if (!svg) error(404, 'There is nothing to draw yet.');
  return svgResponse(svg, 'over-time');
};
