import { error } from '@sveltejs/kit';
import { clipsAsWebvtt } from '$lib/recording';
import { clipsOf } from '$lib/rooms/choose/clip-list';
import { clipList } from '$lib/server/clips';
import { readRecord } from '$lib/server/record';
import type { RequestHandler } from './$types';

/** The clips of one recording, to lie beside it. */
export const GET: RequestHandler = async ({ locals, params, url }) => {
  const list = clipList(await readRecord(locals.store), params.step, url.searchParams);
  const one = list?.offered.find(({ id }) => id === params.case);
  if (!list || !one) error(404, 'There is no such clip, or its times are hidden.');
  return new Response(clipsAsWebvtt(clipsOf([one], list.step, list.checkpoint)), {
    headers: {
      'content-type': 'text/vtt; charset=utf-8',
      'content-disposition': 'attachment; filename="clips.vtt"',
      'cache-control': 'no-store',
    },
  });
};
