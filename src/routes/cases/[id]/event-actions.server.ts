import type { RequestEvent } from '@sveltejs/kit';
import { withEvents } from '$lib/rooms/cases/case-change';
import { eventFromForm } from '$lib/rooms/forms/event-fields';
import { GONE, reviewFrom, whatReviewed, withReview } from '$lib/rooms/forms/event-review';
import { textOf } from '$lib/rooms/forms/fields';
import { asked, refused, store, storeOnce } from './change-case.server';

/** The answer about events. Nothing about reporting or telling the patient is stored: it is not this record's business. */
export const eventActions = {
  noEvent: async (event: RequestEvent) => {
    const { fields, one, procedure } = await asked(event);
    if (one.events && one.events.length > 0)
      return refused('events', fields, [
        { field: 'events', message: 'An event is written down. Remove it first if it was a mistake.' },
      ]);
    return store(event, 'events', fields, withEvents(one, [], procedure), 'events');
  },

  addEvent: async (event: RequestEvent) => {
    const { fields, one, procedure } = await asked(event);
    const { event: added, errors } = eventFromForm(fields, '', procedure);
    if (!added) return refused('events', fields, errors);
    return store(event, 'events', fields, withEvents(one, [...(one.events ?? []), added], procedure), 'events');
  },

  removeEvent: async (event: RequestEvent) => {
    const { fields, one, procedure } = await asked(event);
    const index = Number(textOf(fields, 'index') || 'none');
    if (!one.events?.[index])
      return refused('events', fields, [{ field: 'events', message: 'That event is gone already.' }]);
    const rest = one.events.filter((_, at) => at !== index);
    // Removing an event entered by mistake leaves the question open again: it never turns into "none" by itself.
    return storeOnce(event, fields, withEvents(one, rest.length > 0 ? rest : null, procedure), 'events');
  },

  review: async (event: RequestEvent) => {
    const { fields, one, procedure, now } = await asked(event);
    const index = Number(textOf(fields, 'index') || 'none');
    const field = `review-${index}`;
    const read = reviewFrom(fields, field, now, event.locals.persons?.none);
    if ('error' in read) return refused('events', fields, [read.error]);
    const found = one.events?.[index];
    const events = withReview(one.events ?? [], index, read.review);
    if (!found || !events) return refused('events', fields, [{ field, message: GONE }]);
    const change = withEvents(one, events, procedure);
    return storeOnce(event, fields, change && { ...change, what: whatReviewed(found, procedure) }, 'reviewed');
  },
};
