import { error } from '@sveltejs/kit';
import { readHeld } from '$lib/server/held-import';
import { readRecord } from '$lib/server/record';
import { Cancelled } from '$lib/turns';
import type { RequestHandler } from './$types';

/** A line at most so often, milliseconds. */
const EVERY = 200;

/**
 * Reads a held file ahead of the page that shows it, and says how far it is: a share a line, 0..1, the last one 1. Who goes
 * away ends the reading. Nothing is stored.
 */
export const GET: RequestHandler = async ({ locals, params }) => {
  const held = await locals.store.heldImport(params.id);
  if (!held) error(404, 'This file is no longer held.');
  const record = await readRecord(locals.store);
  const encoder = new TextEncoder();
  let gone = false;
  const body = new ReadableStream<Uint8Array>({
    async start(controller) {
      let said = 0;
      const say = (share: number) => controller.enqueue(encoder.encode(`${share.toFixed(3)}\n`));
      const progress = (share: number) => {
        if (gone || Date.now() - said < EVERY) return;
        said = Date.now();
        say(share);
      };
      try {
        await readHeld(held, record, locals.now, { progress, cancelled: () => gone });
        say(1);
        controller.close();
      } catch (why) {
        if (!(why instanceof Cancelled) && !gone) controller.error(why);
      }
    },
    cancel() {
      gone = true;
    },
  });
  return new Response(body, { headers: { 'content-type': 'text/plain; charset=utf-8', 'cache-control': 'no-store' } });
};
