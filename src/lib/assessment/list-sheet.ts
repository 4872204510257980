import type { Procedure } from '../model';
import { eyeFields } from './eye-fields';

/** A sheet to fill in by hand between cases, in the order in which it is typed afterwards. It has no column for a time. */
export type ListSheet = {
  procedure: { id: string; name: string };
  rows: number;
  columns: readonly { label: string; keys: string }[];
  more: readonly { key: string; label: string }[];
};

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
