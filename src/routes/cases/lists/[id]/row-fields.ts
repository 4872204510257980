import type { FactRow, FactTable } from '$lib/rooms/lists/list-view';
import { valueOf, type FormValues } from '$lib/ui/form-values';
import type { WalkField } from '$lib/ui/key-walk';

export const HANDS = [
  { value: 'mine', label: 'all mine', key: 'O' },
  { value: 'some', label: 'some not mine', key: 'B' },
  { value: 'taken-over', label: 'taken over', key: 'T' },
] as const;

export const EVENTS = [
  { value: 'none', label: 'none', key: '0' },
  { value: 'yes', label: 'event', key: 'E' },
] as const;

const keysOf = (options: readonly { value: string; key: string }[]) =>
  Object.fromEntries(options.map(({ key, value }) => [key.toUpperCase(), value]));

/** The fields of one row in the order of the walk. */
export function fieldsOfRow(row: FactRow, table: FactTable): WalkField[] {
  return [
    ...table.fields.row
      .filter(({ kind }) => kind === 'choice')
      .map(({ factId, options }) => ({
        kind: 'keys' as const,
        name: `${row.id}.fact-${factId}`,
        keys: keysOf(options),
      })),
    ...(table.fields.more.length > 0
      ? [
          {
            kind: 'letters' as const,
            name: `${row.id}.fact-more`,
            letters: table.fields.more.map(({ key }) => key.toUpperCase()),
          },
        ]
      : []),
    { kind: 'keys', name: `${row.id}.hands`, keys: keysOf(HANDS), stay: ['some', 'taken-over'] },
    { kind: 'keys', name: `${row.id}.events`, keys: keysOf(EVENTS), stay: ['yes'] },
  ];
}

/** What every field of a table holds: what was sent and refused, else what is stored. */
export function enteredOf(table: FactTable, values: FormValues | undefined): Record<string, string> {
  return Object.fromEntries(
    table.rows.flatMap((row) =>
      [
        ...Object.entries(row.facts).map(([id, text]) => [`fact-${id}`, text] as const),
        ['fact-as-usual', row.asUsual ? 'yes' : ''] as const,
        ['hands', row.hands.answer] as const,
        ['takenOverAt', row.hands.takenOverAt] as const,
        ['events', row.events] as const,
      ].map(([name, text]) => [`${row.id}.${name}`, valueOf(values, `${row.id}.${name}`, text)]),
    ),
  );
}

/** Whether every field with one answer of a row has it. */
export const isAnswered = (row: FactRow, table: FactTable, entered: Readonly<Record<string, string>>): boolean =>
  fieldsOfRow(row, table).every(({ kind, name }) => kind !== 'keys' || (entered[name] ?? '') !== '');

/** The answers of a row in one line: "soft, large, still, all mine, no event"; what is open is said last. */
export function saidOfRow(row: FactRow, table: FactTable, entered: Readonly<Record<string, string>>): string {
  const chosen = (name: string, options: readonly { value: string; label: string }[]) =>
    options.find(({ value }) => value === entered[`${row.id}.${name}`])?.label ?? null;
  const answers = [
    ...table.fields.row
      .filter(({ kind }) => kind === 'choice')
      .map(({ factId, label, options }) => ({ label, said: chosen(`fact-${factId}`, options) })),
    { label: 'Hands', said: chosen('hands', HANDS) },
    { label: 'Event', said: { none: 'no event', yes: 'an event' }[entered[`${row.id}.events`] ?? ''] ?? null },
  ];
  const said = answers.flatMap((each) => each.said ?? []);
  if (said.length === 0) return 'Nothing answered yet';
  const open = answers.flatMap((each) => (each.said === null ? each.label.toLowerCase() : []));
  return [said.join(', '), ...(open.length > 0 ? [`not answered: ${open.join(', ')}`] : [])].join('; ');
}
