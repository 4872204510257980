import { redirect } from '@sveltejs/kit';
import { textOf } from '$lib/rooms/forms/fields';
import { dropFaults, latestFaults, noteFault } from '$lib/server/faults';
import { fieldsOf } from '$lib/server/form-fields';
import { localTime } from '$lib/server/local-time';
import { toldFault } from '$lib/server/told-fault';
import type { Actions, PageServerLoad } from './$types';

const SHOWN = 50;

export const load: PageServerLoad = async ({ locals }) => ({
  faults: (await latestFaults(SHOWN)).map(({ at, ...fault }) => ({ ...fault, when: localTime(at) })),
  shown: SHOWN,
  place: locals.store.place,
});

export const actions = {
  /** Sent by a page of ours in which something went wrong. */
  told: async ({ locals, request }) => {
    const fields = fieldsOf(await request.formData());
    const [id, where, what, stack] = ['id', 'where', 'what', 'stack'].map((name) => textOf(fields, name));
    const fault = toldFault({ id: id ?? '', where: where ?? '', what: what ?? '', stack: stack ?? '' }, locals.now);
    if (fault) noteFault(fault);
    return { noted: fault !== null };
  },
  drop: async () => {
    await dropFaults();
    redirect(303, '/settings/faults');
  },
} satisfies Actions;
