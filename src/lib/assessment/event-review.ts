import type { Case, Procedure } from '../model';
import { personIn } from '../words';
import { eventWordsOf } from './event-fields';
import { textOf, type FieldError, type Fields } from './fields';

/** A review has to say something that will be done. */
const LEAST = 10;

/** Reads the written review of one event: `case`, `event` (its place among the case's events), `review-<case>-<place>`. */
export function reviewedCase(
  fields: Fields,
  cases: readonly Case[],
  procedure: Procedure,
  now: string,
): { kind: 'reviewed'; case: Case; what: string; field: string } | { kind: 'errors'; errors: FieldError[] } {
  const [caseId, place] = [textOf(fields, 'case'), textOf(fields, 'event')];
  const field = `review-${caseId}-${place}`;
  const text = textOf(fields, field);
  const found = cases.find(({ id }) => id === caseId);
  const event = found?.events?.[Number(place)];
  const refuse = (message: string) => ({ kind: 'errors' as const, errors: [{ field, message }] });
  if (!found || !event) return refuse('This event is no longer in the record.');
  if (text.length < LEAST) return refuse('Write what you will do, in a sentence or two.');
  const [person] = textOf(fields, 'nobody') === 'yes' ? [] : personIn(text);
  if (person)
    return refuse(`"${person.bit}" looks like ${person.looksLike}. Leave it out, or tick that it points to nobody.`);
  const events = found.events?.map((each, at) =>
    at === Number(place) ? { ...each, reviewed: { at: now, text } } : each,
  );
  return {
    kind: 'reviewed',
    case: { ...found, events: events ?? null },
    what: `The event was reviewed in writing: ${eventWordsOf(event, procedure)}`,
    field,
  };
}
