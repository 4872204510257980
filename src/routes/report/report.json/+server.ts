import { error } from '@sveltejs/kit';
import { plainBlanks } from '$lib/format';
import { reportOf } from '$lib/server/report';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals, url }) => {
  const { report } = await reportOf(locals.store, url.searchParams);
  if (!report) error(404, 'Nothing to report yet.');
  const text = plainBlanks(JSON.stringify({ format: 'next-twenty/report/1', ...report }));
  return new Response(text, { headers: { 'content-type': 'application/json' } });
};
