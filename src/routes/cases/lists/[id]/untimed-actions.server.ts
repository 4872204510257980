import { error, fail, redirect, type RequestEvent } from '@sveltejs/kit';
import { GONE, reviewFrom, withReview } from '$lib/rooms/forms/event-review';
import { textOf, type Fields } from '$lib/rooms/forms/fields';
import { attempt } from '$lib/server/attempt';
import { fieldsOf } from '$lib/server/form-fields';
import { revisionOf } from '$lib/server/revision';
import { StaleVersionError } from '$lib/server/storage';
import type { ListRecord } from '$lib/model';

async function asked({ locals, params, request }: RequestEvent) {
  const fields = fieldsOf(await request.formData());
  const list = (await locals.store.lists()).find(({ id }) => id === params.id);
  if (!list) error(404, 'There is no such list in the record.');
  return { fields, list, index: Number(textOf(fields, 'index') || 'none') };
}

/** The event is meant by its place, so the events must be as this page had read them. */
async function store(
  event: RequestEvent,
  fields: Fields,
  list: ListRecord,
  events: ListRecord['untimedEvents'],
  said: string,
) {
  const { refused } = await attempt('untimed', () =>
    event.locals.store.changeList(list.id, (stored) => {
      if (revisionOf(stored.untimedEvents) !== revisionOf(list.untimedEvents)) throw new StaleVersionError('This list');
      return { ...stored, untimedEvents: events };
    }),
  );
  if (refused) return fail(409, { section: 'untimed' as const, errors: [refused], values: fields });
  redirect(303, `/cases/lists/${list.id}?said=${said}`);
}

/** Events of operations that were not timed: their review and their removal. */
export const untimedActions = {
  review: async (event: RequestEvent) => {
    const { fields, list, index } = await asked(event);
    const field = `review-${index}`;
    const read = reviewFrom(fields, field, event.locals.now, event.locals.persons?.none);
    if ('error' in read) return fail(400, { section: 'untimed' as const, errors: [read.error], values: fields });
    const untimedEvents = withReview(list.untimedEvents, index, read.review);
    if (!untimedEvents)
      return fail(400, { section: 'untimed' as const, errors: [{ field, message: GONE }], values: fields });
    return store(event, fields, list, untimedEvents, 'reviewed');
  },

  removeUntimed: async (event: RequestEvent) => {
    const { fields, list, index } = await asked(event);
    const events = list.untimedEvents.filter((_, at) => at !== index);
    return store(event, fields, list, events, 'removed');
  },
};
