import type { Procedure } from '../../../model';
import { textOf, textsOf, type Fields } from '../../forms/fields';
import { namesFrom, namesText } from './lines';
import type { Renamed } from './problems';
import { slugFrom } from './slug-from';
import type { ProcedureUse } from './use';

const BLANKS = 2;
const MORE = 3;

type Row = { id: string; label: string; recorded: number };

/** Waiting reasons and kinds of event of a procedure, ready to print. */
export type WordsForm = {
  values: Record<string, string[]>;
  reasons: readonly Row[];
  events: readonly Row[];
  blankReasons: number;
  blankEvents: number;
};

export function wordsForm(procedure: Procedure, use: ProcedureUse, sent: Fields = {}): WordsForm {
  const blanks = (name: string, more: string) =>
    Math.max(BLANKS, (sent[name]?.length ?? 0) + (textOf(sent, 'more') === more ? MORE : 0));
  return {
    values: Object.fromEntries([
      ...procedure.waitingReasons.flatMap(({ id, label, synonyms = [] }) => [
        [`reason-${id}`, [label]],
        [`names-${id}`, [namesText(synonyms)]],
      ]),
      ...procedure.eventKinds.map(({ id, label }) => [`event-${id}`, [label]]),
    ]),
    reasons: procedure.waitingReasons.map(({ id, label }) => ({ id, label, recorded: use.reasons.get(id) ?? 0 })),
    events: procedure.eventKinds.map(({ id, label }) => ({ id, label, recorded: use.events.get(id) ?? 0 })),
    blankReasons: blanks('newReason', 'reasons'),
    blankEvents: blanks('newEvent', 'events'),
  };
}

/** The procedure with its waiting reasons and kinds of event as typed. One that stands in the record stays. */
export function wordsFromForm(
  fields: Fields,
  procedure: Procedure,
  use: ProcedureUse,
): { procedure: Procedure; renamed: Renamed } {
  const renamed: Record<string, string> = {};
  const goneReasons = new Set(textsOf(fields, 'reasonGone'));
  const goneEvents = new Set(textsOf(fields, 'eventGone'));
  const reasonIds = new Set([...procedure.waitingReasons.map(({ id }) => id), ...use.reasons.keys()]);
  const eventIds = new Set([...procedure.eventKinds.map(({ id }) => id), ...use.events.keys()]);
  const named = (label: string, synonyms: readonly string[], id: string) => ({
    id,
    label,
    ...(synonyms.length > 0 ? { synonyms: [...synonyms] } : {}),
  });
  const fresh = (row: 'reason' | 'event', typed: string, index: number, taken: Set<string>) => {
    const id = slugFrom(typed, taken, row);
    taken.add(id);
    renamed[`${row}-${id}`] = row === 'reason' ? `newReason-${index}` : `newEvent-${index}`;
    return id;
  };
  const rows = (name: string) =>
    (fields[name] ?? []).map((typed, index) => ({ label: typed.trim(), index })).filter(({ label }) => label !== '');
  const waitingReasons = [
    ...procedure.waitingReasons
      .filter(({ id }) => !goneReasons.has(id) || use.reasons.has(id))
      .map(({ id }) => named(textOf(fields, `reason-${id}`), namesFrom(textOf(fields, `names-${id}`)), id)),
    ...rows('newReason').map(({ label, index }) =>
      named(label, namesFrom(fields.newNames?.[index] ?? ''), fresh('reason', label, index, reasonIds)),
    ),
  ];
  const eventKinds = [
    ...procedure.eventKinds
      .filter(({ id }) => !goneEvents.has(id) || use.events.has(id))
      .map(({ id }) => ({ id, label: textOf(fields, `event-${id}`) })),
    ...rows('newEvent').map(({ label, index }) => ({ id: fresh('event', label, index, eventIds), label })),
  ];
  return { procedure: { ...procedure, waitingReasons, eventKinds }, renamed };
}

/** Name and other names of a procedure, as typed. */
export const nameFromForm = (fields: Fields, procedure: Procedure): Procedure => ({
  ...procedure,
  name: textOf(fields, 'name'),
  synonyms: namesFrom(textOf(fields, 'synonyms')),
});
