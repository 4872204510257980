import { writingStretches } from '$lib/intake';
import { casesCsv } from '$lib/server/cases-csv';
import type { RequestHandler } from './$types';

/** One row a stretch. */
export const GET: RequestHandler = ({ locals, url }) => casesCsv(locals.store, url, 'stretches', writingStretches);
