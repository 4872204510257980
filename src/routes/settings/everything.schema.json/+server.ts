import { backupSchema } from '$lib/server/backup';
import { z } from 'zod';
import type { RequestHandler } from './$types';

/** JSON Schema of the full backup, so that another program can read it without this one. */
export const GET: RequestHandler = () =>
  new Response(`${JSON.stringify(z.toJSONSchema(backupSchema, { io: 'input' }), null, 1)}\n`, {
    headers: { 'content-type': 'application/schema+json; charset=utf-8' },
  });
