import { error } from '@sveltejs/kit';
import { clipsAsCsv } from '$lib/recording';
import { clipsOf } from '$lib/rooms/choose/clip-list';
import { clipList } from '$lib/server/clips';
import { readRecord } from '$lib/server/record';
import type { RequestHandler } from './$types';

/** Code, step, from, to and checkpoint of each clip; no date. */
export const GET: RequestHandler = async ({ locals, params, url }) => {
  const list = clipList(await readRecord(locals.store), params.step, url.searchParams);
  if (!list) error(404, 'The procedure has no step of this name.');
  return new Response(clipsAsCsv(clipsOf(list.chosen, list.step, list.checkpoint)), {
    headers: {
      'content-type': 'text/csv; charset=utf-8',
      'content-disposition': 'attachment; filename="clips.csv"',
      'cache-control': 'no-store',
    },
  });
};
