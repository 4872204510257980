import { z } from 'zod';
import type { Case, ListRecord } from '../model';
import { eventBounds, eventTally, type EventBounds } from '../safety';

const rateSchema = z.strictObject({
  n: z.int().nullable().describe('Answered cases with such an event; null: no case is answered.'),
  rate: z.number().nullable().describe('Share of answered cases, 0 to 1; null: no case is answered with none.'),
  low95: z.number().nullable(),
  upper95: z.number().nullable(),
});

/** Events of the whole record, with what they are counted in. */
export const eventsJsonSchema = z.strictObject({
  cases: z.int(),
  answered: z.int().describe('Cases in which events were asked; nothing is known of the others.'),
  any: rateSchema,
  serious: rateSchema,
  near_miss_only: z.int(),
  waiting_for_review: z.int().describe('Serious events, those of untimed operations included.'),
  untimed: z
    .strictObject({ operated: z.int(), answered: z.int(), with_event: z.int(), with_serious: z.int() })
    .nullable()
    .describe('Operations of the same lists without times; null: the lists do not say.'),
  next_day: z
    .strictObject({ known: z.int(), of: z.int() })
    .nullable()
    .describe('Operations whose next-day course is known; null: no list says.'),
});

export type EventsJson = z.infer<typeof eventsJsonSchema>;

/** Rates with exact 95 % bounds (safety/event-bounds): two-sided, one-sided where none was seen. */
export function eventsJson(cases: readonly Case[], lists: readonly ListRecord[]): EventsJson {
  const tally = eventTally(cases, lists);
  const { answered, untimed } = tally;
  const rated = (withEvent: number) => rateOf(eventBounds({ ...tally, withEvent }), withEvent);
  return {
    cases: tally.cases,
    answered,
    any: rated(tally.withEvent),
    serious: rated(tally.withSerious),
    near_miss_only: tally.nearMissOnly,
    waiting_for_review: tally.unreviewedSerious,
    untimed: untimed && {
      operated: untimed.operated,
      answered: untimed.answered,
      with_event: untimed.withEvent,
      with_serious: untimed.withSerious,
    },
    next_day: tally.nextDay,
  };
}

function rateOf(bounds: EventBounds, n: number): EventsJson['any'] {
  switch (bounds.kind) {
    case 'never-asked':
      return { n: null, rate: null, low95: null, upper95: null };
    case 'only-events':
      return { n, rate: null, low95: null, upper95: null };
    case 'none':
      return { n, rate: 0, low95: 0, upper95: bounds.upper95 };
    case 'some':
      return { n, rate: n / bounds.answered, low95: bounds.low, upper95: bounds.high };
  }
}
