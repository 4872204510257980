import { z } from 'zod';
import { erasedSchema } from './erased';
import { eventSchema } from './event';
import { isoDate, isoMonth, listId } from './id';
import { countOnList, placeOnList, value } from './number';
import { label } from './written';

/** When a list took place, as far as it is known. A number only orders lists. */
export const whenSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('date'), date: isoDate }),
  z.strictObject({ kind: z.literal('month'), month: isoMonth }),
  z.strictObject({ kind: z.literal('number'), number: value }),
  z.strictObject({ kind: z.literal('unknown') }),
]);

/** One operating session. Untimed operations count for safety, so how many were operated is asked. */
export const listRecordSchema = z.strictObject({
  id: listId,
  /** The surgeon's own name for it (a number, a letter), or `null`. */
  label: label(z.string(), 60).nullable(),
  when: whenSchema,
  operated: placeOnList.nullable(),
  anaesthesia: label(z.string(), 60).nullable(),
  machine: label(z.string(), 60).nullable(),
  teaching: z.boolean().nullable(),
  /** Were events answered for every operation of the list, timed or not? `null`: not said. */
  eventsAnsweredForAll: z.boolean().nullable(),
  untimedEvents: z.array(eventSchema),
  /** In how many operations the next-day course is known. `null`: not said. */
  nextDayKnown: countOnList.nullable(),
  /** Timed cases of this list that were erased. Missing: none, or before this was counted. */
  erased: erasedSchema.optional(),
});

export type When = z.infer<typeof whenSchema>;
export type ListRecord = z.infer<typeof listRecordSchema>;
