import { error } from '@sveltejs/kit';
import { render } from 'svelte/server';
import ChooseRows from '$lib/charts/ChooseRows.svelte';
import { svgFile } from '$lib/charts/svg-file';
import { readChoose } from '$lib/server/choose';
import { readRecord } from '$lib/server/record';
import { svgResponse } from '$lib/server/svg-response';
import type { RequestHandler } from './$types';

/** The drawing of Choose as a file, by the same marks as on the screen. */
export const GET: RequestHandler = async ({ locals, url }) => {
  const { room } = await readChoose(await readRecord(locals.store), url.searchParams);
  if (!room) error(404, 'There is nothing to draw yet.');
  const input = { rows: room.rows, column: room.view, named: room.named, seed: room.seed };
  const { body } = render(ChooseRows, { props: { input, label: room.title } });
  const svg = svgFile(body, { title: room.title, reading: room.reading, key: room.key });
  if (!svg) error(404, 'There is nothing to draw yet.');
  return svgResponse(svg, `choose-${room.view}`);
};
