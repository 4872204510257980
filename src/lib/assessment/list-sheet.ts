import { writeSheet } from '../intake';
import type { Case, Procedure } from '../model';
import { eyeFields } from './eye-fields';

/** A sheet to fill in by hand between cases, in the order in which it is typed afterwards. It has no column for a time. */
export type ListSheet = {
  procedure: { id: string; name: string };
  rows: number;
  columns: readonly { label: string; keys: string }[];
  more: readonly { key: string; label: string }[];
};

/** Headings of the first two columns, before those of the facts. */
const PLACE = ['Place', 'Own code'] as const;

export function listSheet(procedure: Procedure, rows: 20 | 40): ListSheet {
  const { row, more } = eyeFields(procedure);
  return {
    procedure: { id: procedure.id, name: procedure.name },
    rows,
    columns: [
      ...row.map(({ label, options, unit }) => ({
        label: unit ? `${label} (${unit})` : label,
        keys: options.map((option) => `${option.key} ${option.label}`).join(', '),
      })),
      ...(more.length > 0 ? [{ label: 'Anything else', keys: '0 none, or letters' }] : []),
      { label: 'Hands', keys: 'M all mine, S some not mine, T taken over' },
      { label: 'Event', keys: '0 none, E event' },
    ],
    more: more.map(({ key, label }) => ({ key, label })),
  };
}

/**
 * The same sheet as a CSV to fill in on a computer and bring in like any other file. With the cases of a list their
 * places and codes stand in it already.
 */
export function listSheetCsv({ columns, rows }: ListSheet, cases: readonly Pick<Case, 'code' | 'position'>[]): string {
  const headings = [...PLACE, ...columns.map(({ label }) => label)];
  const filled = cases.map(({ code, position }, index) => [String(position ?? index + 1), code]);
  const empty = Array.from({ length: rows }, (_, index) => [String(index + 1), '']);
  return writeSheet(headings, cases.length > 0 ? filled : empty);
}
