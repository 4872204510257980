import type { Case, Event, Procedure } from '../../model';
import { personIn } from '../../persons';
import { asksWho } from '../../words';
import { eventWordsOf } from './event-fields';
import { textOf, type FieldError, type Fields } from './fields';

/** A review has to say something that will be done. */
const LEAST = 10;

type Review = NonNullable<Event['reviewed']>;

/**
 * The written review in one field of a form, wherever it is asked for. Words that look like a person are stored only
 * with `nobody` ticked.
 * @param none what was said to be none earlier
 */
export function reviewFrom(
  fields: Fields,
  field: string,
  now: string,
  none: readonly string[] = [],
): { review: Review } | { error: FieldError } {
  const text = textOf(fields, field);
  const refuse = (message: string) => ({ error: { field, message } });
  if (text.length < LEAST) return refuse('Write what you will do, in a sentence or two.');
  const persons = textOf(fields, 'nobody') === 'yes' ? [] : personIn(text, 'note', none);
  if (persons.length > 0) return refuse(asksWho(persons));
  return { review: { at: now, text } };
}

/** The events with one of them reviewed; `null` where there is no such event, or its review stands in words already. */
export function withReview(events: readonly Event[], place: number, review: Review): Event[] | null {
  const event = events[place];
  if (!event || (event.reviewed !== null && event.reviewed.text !== null)) return null;
  return events.map((each, at) => (at === place ? { ...each, reviewed: review } : each));
}

/** Reads the written review of one event: `case`, `event` (its place among the case's events), `review-<case>-<place>`. */
export function reviewedCase(
  fields: Fields,
  cases: readonly Case[],
  procedure: Procedure,
  now: string,
  none: readonly string[] = [],
): { kind: 'reviewed'; case: Case; what: string; field: string } | { kind: 'errors'; errors: FieldError[] } {
  const [caseId, place] = [textOf(fields, 'case'), Number(textOf(fields, 'event') || 'none')];
  const field = `review-${caseId}-${textOf(fields, 'event')}`;
  const found = cases.find(({ id }) => id === caseId);
  const event = found?.events?.[place];
  if (!found || !event) return { kind: 'errors', errors: [{ field, message: GONE }] };
  const read = reviewFrom(fields, field, now, none);
  if ('error' in read) return { kind: 'errors', errors: [read.error] };
  const events = withReview(found.events ?? [], place, read.review);
  if (!events) return { kind: 'errors', errors: [{ field, message: GONE }] };
  return { kind: 'reviewed', case: { ...found, events }, what: whatReviewed(event, procedure), field };
}

/** For the history of a case. */
export const whatReviewed = (event: Event, procedure: Procedure): string =>
  `The event was reviewed in writing: ${eventWordsOf(event, procedure)}`;

/** Said where the form was made from an event that is gone, or reviewed, by now. */
export const GONE = 'This event is no longer in the record, or it was reviewed meanwhile.';
