import { error } from '@sveltejs/kit';
import { reportMarkdown } from '$lib/rooms/report';
import { plainBlanks } from '$lib/format';
import { reportOf } from '$lib/server/report';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals, url }) => {
  const { report } = await reportOf(locals.store, url.searchParams);
  if (!report) error(404, 'Nothing to report yet.');
  return new Response(plainBlanks(reportMarkdown(report)), { headers: { 'content-type': 'text/markdown; charset=utf-8' } });
};
