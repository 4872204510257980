import { everythingText } from '$lib/server/backup';
import type { RequestHandler } from './$types';

/** The whole record as one file: the full backup, dates included. */
export const GET: RequestHandler = async ({ locals }) =>
  new Response(everythingText(await locals.store.everything()), {
    headers: {
      'content-type': 'application/json; charset=utf-8',
      'content-disposition': `attachment; filename="next-twenty-${locals.now.slice(0, 10)}.json"`,
      'cache-control': 'no-store',
    },
  });
