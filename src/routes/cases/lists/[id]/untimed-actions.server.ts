import { error, fail, redirect, type RequestEvent } from '@sveltejs/kit';
import { textOf } from '$lib/assessment/fields';
import { attempt } from '$lib/server/attempt';
import { fieldsOf } from '$lib/server/form-fields';
import type { ListRecord } from '$lib/model';

async function asked({ locals, params, request }: RequestEvent) {
  const fields = fieldsOf(await request.formData());
  const list = (await locals.store.lists()).find(({ id }) => id === params.id);
  if (!list) error(404, 'There is no such list in the record.');
  return { fields, list, index: Number(textOf(fields, 'index') || 'none') };
}

async function store(event: RequestEvent, list: ListRecord, said: string) {
  const { refused } = await attempt('untimed', () => event.locals.store.updateList(list));
  if (refused) return fail(409, { errors: [refused] });
  redirect(303, `/cases/lists/${list.id}?said=${said}`);
}

/** Events of operations that were not timed: their review, and taking one away. */
export const untimedActions = {
  review: async (event: RequestEvent) => {
    const { fields, list, index } = await asked(event);
    const text = textOf(fields, `review-${index}`);
    if (text === '')
      return fail(400, {
        errors: [
          { field: `review-${index}`, message: 'Write what you will do after looking at it with a senior colleague.' },
        ],
        values: fields,
      });
    const untimedEvents = list.untimedEvents.map((each, at) =>
      at === index ? { ...each, reviewed: { at: event.locals.now, text } } : each,
    );
    return store(event, { ...list, untimedEvents }, 'reviewed');
  },

  removeUntimed: async (event: RequestEvent) => {
    const { list, index } = await asked(event);
    return store(event, { ...list, untimedEvents: list.untimedEvents.filter((_, at) => at !== index) }, 'removed');
  },
};
