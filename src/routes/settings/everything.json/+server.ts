import type { RequestHandler } from './$types';

/** The whole record as one file: the full backup, dates included. */
export const GET: RequestHandler = async ({ locals }) =>
  new Response(`${JSON.stringify(await locals.store.everything(), null, 1)}\n`, {
    headers: {
      'content-type': 'application/json; charset=utf-8',
      'content-disposition': `attachment; filename="next-twenty-${locals.now.slice(0, 10)}.json"`,
      'cache-control': 'no-store',
    },
  });
