import { redirect, type RequestEvent } from '@sveltejs/kit';
import { attempt } from '$lib/server/attempt';
import { changeCases, lastUndo } from '$lib/server/last-change';
import { asked, refused } from './change-case.server';

/** One step back, of the change made last. */
export const undoActions = {
  undo: async (event: RequestEvent) => {
    const { fields, one, record, now } = await asked(event);
    const undo = await lastUndo(event.locals.store, record, [one.id], now);
    const why =
      undo?.kind === 'refused'
        ? undo.because
        : 'This case was changed again since, so that change can no longer be undone. Its history says what stood there.';
    if (undo?.kind !== 'offered') return refused('undo', fields, [{ field: 'undo', message: why }], 409);
    const { refused: stale } = await attempt('undo', () => changeCases(event.locals.store, undo.back, now));
    if (stale) return refused('undo', fields, [stale], 409);
    redirect(303, `/cases/${one.id}?said=undone`);
  },
};
