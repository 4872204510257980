import { procedureOf } from '$lib/model';
import { makePacket } from '$lib/rooms/packet/make-packet';
import { readRecord } from '$lib/server/record';
import { fewForPacket } from '$lib/words/packet';
import type { RequestHandler } from './$types';

/** Cases of one's own for a colleague's reference set. */
export const GET: RequestHandler = async ({ locals, url }) => {
  const record = await readRecord(locals.store);
  const made = makePacket(record, procedureOf(record, url.searchParams.get('procedure') ?? record.profile.procedureId));
  if ('because' in made)
    return new Response(fewForPacket(made.cases), {
      status: 409,
      headers: { 'content-type': 'text/plain; charset=utf-8' },
    });
  return new Response(`${JSON.stringify(made.packet, null, 1)}\n`, {
    headers: {
      'content-type': 'application/json; charset=utf-8',
      // No date in the name either.
      'content-disposition': 'attachment; filename="reference-packet.json"',
      'cache-control': 'no-store',
    },
  });
};
