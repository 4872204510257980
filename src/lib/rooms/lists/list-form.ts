import type { Case, ListRecord, Procedure } from '../../model';
import { together, withEvents, withFacts, withHands } from '../cases/case-change';
import { eventFromForm, eventsFromForm } from '../forms/event-fields';
import { factsFromForm } from '../forms/eye-fields';
import { textOf, textsOf, wholeOf, type FieldError, type Fields } from '../forms/fields';
import { handsFromForm } from '../forms/hands-fields';
import { whenFromFields, whenText } from '../forms/list-fields';
import { factPrefix, rowAnswers, rowPrefix } from './list-view';

export type ListRows = {
  changed: { case: Case; what: string }[];
  errors: FieldError[];
};

/**
 * The rows of a list as sent. A row left as it is changes nothing and need not be complete; a row in which anything was
 * entered must answer whose hands and whether there was an event. `<procedure>.all-mine` and `<procedure>.no-event`
 * answer for every row of that procedure without an answer of its own.
 *
 * @param seen whether the times of a case have been seen: its facts are then marked as changed late
 */
export function rowsFromForm(
  sent: Fields,
  cases: readonly Case[],
  procedureOfCase: (one: Case) => Procedure,
  seen: (one: Case) => boolean,
  now: string,
): ListRows {
  const rows: ListRows = { changed: [], errors: [] };
  const fields = withAllOthers(sent, cases);
  for (const stored of cases) {
    if (stored.keptAsItIs !== null || !(`${rowPrefix(stored.id)}version` in fields)) continue;
    const procedure = procedureOfCase(stored);
    if (!touched(fields, stored, procedure)) continue;
    const one = { ...stored, version: Number(textOf(fields, `${rowPrefix(stored.id)}version`)) || stored.version };
    const facts = factsFromForm(fields, factPrefix(one.id), procedure, one.facts);
    const answers = rowAnswers(one, procedure);
    const hands = handsFromForm(fields, rowPrefix(one.id), procedure, answers.hands.answer === '' ? null : one.hands);
    const events = eventsFromForm(fields, rowPrefix(one.id), procedure, one.events);
    const errors = [...facts.errors, ...hands.errors, ...events.errors];
    rows.errors.push(...errors.map(({ field, message }) => ({ field, message: `${one.code}. ${message}` })));
    if (errors.length > 0) continue;
    const change = together(one, [
      (at) => withFacts(at, facts.facts, procedure, seen(one), now),
      (at) => (hands.hands ? withHands(at, hands.hands, procedure) : null),
      (at) => withEvents(at, events.events, procedure),
    ]);
    if (change) rows.changed.push(change);
  }
  return rows;
}

function withAllOthers(sent: Fields, cases: readonly Case[]): Fields {
  const filled: Record<string, readonly string[]> = { ...sent };
  for (const { id, procedureId } of cases)
    for (const [mark, name, answer] of [
      ['all-mine', 'hands', 'mine'],
      ['no-event', 'events', 'none'],
    ] as const)
      if (textOf(sent, `${procedureId}.${mark}`) === 'yes' && textOf(sent, `${rowPrefix(id)}${name}`) === '')
        filled[`${rowPrefix(id)}${name}`] = [answer];
  return filled;
}

/** Does the row differ from what is stored? */
function touched(fields: Fields, one: Case, procedure: Procedure): boolean {
  const { facts, hands, events } = rowAnswers(one, procedure);
  const sent = (name: string) => textOf(fields, `${rowPrefix(one.id)}${name}`);
  return (
    Object.entries(facts).some(([id, text]) => textOf(fields, `${factPrefix(one.id)}${id}`) !== text) ||
    sent('hands') !== hands.answer ||
    sent('events') !== events ||
    sent('takenOverAt') !== hands.takenOverAt ||
    textsOf(fields, `${rowPrefix(one.id)}notMine`).join() !== hands.notMine.join() ||
    sent('kind') !== ''
  );
}

/** What is asked once a list, and one event of an operation that was not timed. */
export function listFromFields(
  fields: Fields,
  list: ListRecord,
  cases: number,
  procedure: Procedure,
): { list: ListRecord; errors: FieldError[] } {
  const { when, errors } = whenFromFields(fields, 'when', undefined, whenText(list.when));
  const wrong = (field: string, message: string) => errors.push({ field, message });
  const operated = wholeOf(fields, 'operated', 1);
  if (operated === undefined) wrong('operated', 'Operated: a whole number from 1, or empty.');
  else if (operated !== null && operated < cases)
    wrong('operated', `Operated: ${cases} cases of this list are here, so it cannot be ${operated}.`);
  const known = wholeOf(fields, 'nextDayKnown');
  if (known === undefined) wrong('nextDayKnown', 'Next-day course: a whole number, or empty.');
  else if (known !== null && typeof operated === 'number' && known > operated)
    wrong('nextDayKnown', `Next-day course: it cannot be known in ${known} of ${operated} operations.`);

  const untimed = textOf(fields, 'kind') === '' ? null : eventFromForm(fields, '', procedure);
  errors.push(...(untimed?.errors ?? []));
  const answer = (name: string) => {
    const text = textOf(fields, name);
    return text === '' ? null : text === 'yes';
  };
  const line = (name: string) => textOf(fields, name) || null;
  return {
    errors,
    list: {
      ...list,
      label: line('label'),
      when: when ?? list.when,
      operated: operated ?? null,
      anaesthesia: line('anaesthesia'),
      machine: line('machine'),
      teaching: answer('teaching'),
      eventsAnsweredForAll: answer('eventsAnsweredForAll'),
      nextDayKnown: known ?? null,
      untimedEvents: untimed?.event ? [...list.untimedEvents, untimed.event] : list.untimedEvents,
    },
  };
}
