import { isMonthAlone } from '../../intake';
import type { Event, Procedure } from '../../model';
import { textOf, type FieldError, type Fields } from './fields';
import { instantWords, monthWords } from './when-words';

const NOTICED: Record<Event['noticed'], string> = {
  during: 'noticed during the operation',
  'same-day': 'noticed the same day',
  later: 'noticed later',
  'not-known': 'when it was noticed is not known',
};

const isNoticed = (text: string): text is Event['noticed'] => Object.hasOwn(NOTICED, text);

/** Answers to "when was it noticed", for a select. */
export const noticedOptions = Object.entries(NOTICED).map(([value, label]) => ({
  value,
  label: value === 'not-known' ? 'not known' : label.replace('noticed ', ''),
}));

/** The name of an event: the procedure's own word, else as it was written. */
export const eventKindWords = (kind: string, procedure: Procedure): string =>
  procedure.eventKinds.find(({ id }) => id === kind)?.label ?? kind;

/** An event in one line: "posterior capsule tear, at cortex aspiration; serious; noticed during the operation". */
export function eventWordsOf(event: Event, procedure: Procedure): string {
  const step = procedure.steps.find(({ id }) => id === event.stepId)?.label;
  return [
    eventKindWords(event.kind, procedure) + (step ? `, at ${step.charAt(0).toLowerCase()}${step.slice(1)}` : ''),
    event.nearMiss ? 'near miss' : event.serious ? 'serious' : 'not serious',
    NOTICED[event.noticed],
  ].join('; ');
}

/** A review in one line; `null` where there is none. A file may tell that it was written, and when, without its text. */
export function reviewWords(reviewed: Event['reviewed']): string | null {
  if (reviewed === null) return null;
  const when = isMonthAlone(reviewed.at) ? `in ${monthWords(reviewed.at)}` : `on ${instantWords(reviewed.at)}`;
  return `Reviewed ${when}${reviewed.text === null ? '; its text was not in the file.' : `: ${reviewed.text}`}`;
}

/** One event as typed: `kind`, `eventStep`, `weight`, `noticed`, names prefixed. */
export function eventFromForm(
  fields: Fields,
  prefix: string,
  procedure: Procedure,
): { event: Event | null; errors: FieldError[] } {
  const kind = textOf(fields, `${prefix}kind`);
  const weight = textOf(fields, `${prefix}weight`);
  const noticed = textOf(fields, `${prefix}noticed`);
  const stepId = textOf(fields, `${prefix}eventStep`);
  const errors: FieldError[] = [];
  if (!procedure.eventKinds.some(({ id }) => id === kind))
    errors.push({ field: `${prefix}kind`, message: 'Event: say what happened.' });
  if (!['serious', 'not-serious', 'near-miss'].includes(weight))
    errors.push({
      field: `${prefix}weight`,
      message: 'Event: say whether it was serious, not serious or a near miss.',
    });
  if (!isNoticed(noticed)) errors.push({ field: `${prefix}noticed`, message: 'Event: say when it was noticed.' });
  if (stepId !== '' && !procedure.steps.some(({ id }) => id === stepId))
    errors.push({ field: `${prefix}eventStep`, message: 'Event: this procedure has no such step.' });
  if (errors.length > 0 || !isNoticed(noticed)) return { event: null, errors };
  return {
    event: {
      kind,
      stepId: stepId === '' ? null : stepId,
      serious: weight === 'serious',
      nearMiss: weight === 'near-miss',
      noticed,
      reviewed: null,
    },
    errors,
  };
}

/**
 * The answer about events: `events` is `none` or `yes`, with one event beside a `yes`. Must be answered.
 *
 * @param before events stored already: a `yes` without a new one keeps them; a `none` never removes them unseen.
 */
export function eventsFromForm(
  fields: Fields,
  prefix: string,
  procedure: Procedure,
  before: readonly Event[] | null = null,
): { events: Event[] | null; errors: FieldError[] } {
  const answer = textOf(fields, `${prefix}events`);
  const refuse = (message: string) => ({ events: null, errors: [{ field: `${prefix}events`, message }] });
  if (answer === 'none')
    return before && before.length > 0
      ? refuse('Events: one is written down already. Remove it on the page of the case, where it stays in the history.')
      : { events: [], errors: [] };
  if (answer !== 'yes') return refuse('Events: answer none or yes. Not answered is not the same as none.');
  if (before && before.length > 0 && textOf(fields, `${prefix}kind`) === '') return { events: [...before], errors: [] };
  const { event, errors } = eventFromForm(fields, prefix, procedure);
  return { events: event ? [...(before ?? []), event] : null, errors };
}
