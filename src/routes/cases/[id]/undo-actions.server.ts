import { redirect, type RequestEvent } from '@sveltejs/kit';
import { textOf } from '$lib/rooms/forms/fields';
import { undoLast } from '$lib/server/last-change';
import { asked, refused } from './change-case.server';

/** One step back, of the change made last. */
export const undoActions = {
  undo: async (event: RequestEvent) => {
    const { fields, one, record, now } = await asked(event);
    const why = await undoLast(event.locals.store, record, [one.id], textOf(fields, 'of'), now);
    if (why) return refused('undo', fields, [{ field: 'history', message: why }], 409);
    redirect(303, `/cases/${one.id}?said=undone`);
  },
};
