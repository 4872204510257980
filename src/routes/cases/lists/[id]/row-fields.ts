import type { FactRow, FactTable } from '$lib/rooms/lists/list-view';
import { valueOf, type FormValues } from '$lib/ui/form-values';
import type { WalkField } from '$lib/ui/key-walk';

export const HANDS = [
  { value: 'mine', label: 'all mine', key: 'M' },
  { value: 'some', label: 'some not mine', key: 'S' },
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
