import type { RequestEvent } from '@sveltejs/kit';
import { withFacts, withHands, withTimes } from '$lib/rooms/cases/case-change';
import { placeFromForm } from '$lib/rooms/cases/place-of-case';
import { factsFromForm } from '$lib/rooms/forms/eye-fields';
import { textOf } from '$lib/rooms/forms/fields';
import { timesWereSeen } from '$lib/rooms/goals/hidden-times';
import { stretchesFromForm } from '$lib/rooms/forms/stretch-fields';
import { handsSchema } from '$lib/model';
import { newList } from '$lib/server/typed-case';
import { asked, refused, store } from './change-case.server';

/** Facts, hands, times, list and place, and protected parts of a case. */
export const editActions = {
  facts: async (event: RequestEvent) => {
    const { fields, one, procedure, hidden, now } = await asked(event);
    const { facts, errors } = factsFromForm(fields, 'fact-', procedure, one.facts);
    if (errors.length > 0) return refused('facts', fields, errors);
    return store(event, 'facts', fields, withFacts(one, facts, procedure, timesWereSeen(one, hidden), now), 'facts');
  },

  hands: async (event: RequestEvent) => {
    const { fields, one, procedure } = await asked(event);
    const steps = procedure.steps.flatMap(({ id }) => {
      const read = handsSchema.safeParse(textOf(fields, `hand-${id}`));
      return read.success && read.data !== 'mine' ? [[id, read.data] as const] : [];
    });
    const change = withHands(one, { whole: 'mine', steps: Object.fromEntries(steps) }, procedure);
    return store(event, 'hands', fields, change, 'hands');
  },

  times: async (event: RequestEvent) => {
    const { fields, one, procedure, hidden } = await asked(event);
    if (hidden.has(one.id))
      return refused('times', fields, [
        {
          field: 'times',
          message: 'The times of this case are hidden while its window runs, so they cannot be edited.',
        },
      ]);
    const { stretches, errors } = stretchesFromForm(fields, procedure);
    if (errors.length > 0) return refused('times', fields, errors);
    return store(event, 'times', fields, withTimes(one, stretches), 'times');
  },

  place: async (event: RequestEvent) => {
    const { fields, one, record } = await asked(event);
    const { change, onto, errors } = placeFromForm(fields, one, record);
    if (errors.length > 0) return refused('place', fields, errors);
    return store(event, 'place', fields, change, 'place', onto ? newList(onto.label, onto.when) : undefined);
  },

  kept: async (event: RequestEvent) => {
    const { fields, one, procedure } = await asked(event);
    const parts = procedure.steps.flatMap(({ protectedParts }) => protectedParts);
    const protectedSeen = Object.fromEntries(
      parts.flatMap(({ id }) => {
        const answer = textOf(fields, `seen-${id}`);
        return answer === 'yes' || answer === 'no' ? [[id, answer === 'yes'] as const] : [];
      }),
    );
    const say = (value: boolean | undefined) => (value === undefined ? 'not looked for' : value ? 'seen' : 'not seen');
    const changed = parts.filter(({ id }) => one.protectedSeen[id] !== protectedSeen[id]);
    const what = changed
      .map(({ id, label }) => `${label}: ${say(one.protectedSeen[id])} → ${say(protectedSeen[id])}`)
      .join('; ');
    const change = changed.length > 0 ? { case: { ...one, protectedSeen }, what } : null;
    return store(event, 'kept', fields, change, 'kept');
  },
};
