import type { CellRowView } from './done-cells';

export type CellTable<Method extends string> = {
  columns: { label: string; method?: Method }[];
  rows: string[][];
};

/** Rows of cells over the same cases, turned: a line a case, a column a row of the drawing. */
export function doneTable(rows: readonly CellRowView[]): CellTable<'done'> {
  const cases = rows[0]?.cells ?? [];
  return {
    columns: [{ label: 'Case' }, ...rows.map(({ label }) => ({ label, method: 'done' as const }))],
    rows: cases.map(({ of }, index) => [of, ...rows.map(({ cells }) => cells[index]?.is ?? '')]),
  };
}

/** Timed cases, then the operations that were not timed: a line each. */
export function safetyTable(rows: readonly CellRowView[]): CellTable<'events'> {
  return {
    columns: [{ label: 'Case' }, { label: 'Events', method: 'events' }],
    rows: rows.flatMap(({ cells }) => cells.map(({ of, is }) => [of, is])),
  };
}
