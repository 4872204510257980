import { writingCases } from '$lib/intake';
import { casesCsv } from '$lib/server/cases-csv';
import type { RequestHandler } from './$types';

/** One row a case, one column a step. */
export const GET: RequestHandler = ({ locals, url }) => casesCsv(locals.store, url, 'cases', writingCases);
