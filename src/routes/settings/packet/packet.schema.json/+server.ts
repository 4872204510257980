import { referencePacketSchema } from '$lib/model';
import { z } from 'zod';
import type { RequestHandler } from './$types';

/** JSON Schema of a packet, so that another program can read or make one. */
export const GET: RequestHandler = () =>
  new Response(`${JSON.stringify(z.toJSONSchema(referencePacketSchema, { io: 'input' }), null, 1)}\n`, {
    headers: { 'content-type': 'application/schema+json; charset=utf-8' },
  });
