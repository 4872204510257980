import { setImmediate } from 'node:timers/promises';
import { backupPieces } from '$lib/server/backup';
import type { RequestHandler } from './$types';

/** The whole record as one file, written as it is read: the full backup, dates included; what cannot be read is named in it. */
export const GET: RequestHandler = async ({ locals }) => {
  const { everything, missing } = await locals.store.readableEverything();
  const pieces = backupPieces(everything, missing);
  const encoder = new TextEncoder();
  const body = new ReadableStream<Uint8Array>({
    async pull(controller) {
      await setImmediate(); // others are answered between two pieces
      const { done, value } = pieces.next();
      if (done) controller.close();
      else controller.enqueue(encoder.encode(value));
    },
  });
  return new Response(body, {
    headers: {
      'content-type': 'application/json; charset=utf-8',
      'content-disposition': `attachment; filename="next-twenty-${locals.now.slice(0, 10)}.json"`,
      'cache-control': 'no-store',
    },
  });
};
