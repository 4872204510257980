import { error } from '@sveltejs/kit';
import Papa from 'papaparse';
import { plainBlanks } from '$lib/format';
import { reportOf } from '$lib/server/report';
import type { RequestHandler } from './$types';

export const GET: RequestHandler = async ({ locals, url }) => {
  const { report } = await reportOf(locals.store, url.searchParams);
  if (!report) error(404, 'Nothing to report yet.');
  const columns = ['name', 'value', 'low', 'high', 'n', 'unit'];
  const csv = Papa.unparse([...report.figures], { escapeFormulae: true, columns });
  return new Response(plainBlanks(csv), { headers: { 'content-type': 'text/csv; charset=utf-8' } });
};
