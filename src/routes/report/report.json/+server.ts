import { error, json } from '@sveltejs/kit';
import { reportOf } from '$lib/server/report';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals, url }) => {
  const { report } = await reportOf(locals.store, url.searchParams);
  if (!report) error(404, 'Nothing to report yet.');
  return json({ format: 'next-twenty/report/1', ...report });
};
