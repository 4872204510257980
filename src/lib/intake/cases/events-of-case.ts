import type { Event } from '../../model';
import { cellOf, type ColumnSet } from '../headings/column';
import type { Ledger } from '../ledger';
import type { CaseReaders } from './case-readers';
import type { Draft } from './draft';
import type { EventCells } from './events';

/** Events of a case: answered where any of its rows answers; the same cells in several rows count once. */
export function eventsOf(draft: Draft, set: ColumnSet, readers: CaseReaders, ledger: Ledger): Event[] | null {
  const { rows } = draft;
  const column = set.own('event');
  if (!column) return null;
  if (rows.every((row) => cellOf(row, column) === '')) return readers.noEventCell(draft) === 'none' ? [] : null;
  let events: Event[] | null = null;
  let none: number | null = null;
  const columns = Object.values(EVENT_COLUMNS).flatMap((id) => set.own(id) ?? []);
  const seen = new Set<string>();
  for (const row of rows) {
    if (cellOf(row, column) === '') continue;
    const key = columns.map(({ index }) => row.cells[index] ?? '').join('\u0000');
    if (seen.has(key)) continue;
    seen.add(key);
    const cells: EventCells = {
      kind: cellOf(row, column),
      step: cellOf(row, set.own('event-step')),
      serious: cellOf(row, set.own('event-serious')),
      nearMiss: cellOf(row, set.own('event-near-miss')),
      noticed: cellOf(row, set.own('event-noticed')),
      reviewedAt: cellOf(row, set.own('event-reviewed-at')),
      review: cellOf(row, set.own('event-review')),
    };
    const read = readers.events(cells);
    for (const { part, value, why } of read.wrong) ledger.query(row.row, headingOf(set, part), value || null, why);
    if (read.events === null) continue;
    if (read.events.length === 0) none ??= row.row;
    events = [...(events ?? []), ...read.events];
    if (none !== null && events.length > 0)
      ledger.query(
        row.row,
        column.heading,
        cells.kind,
        `Row ${none} of the same case says there was no event, another row names one; the event is taken. Make them agree.`,
      );
  }
  return events;
}

const EVENT_COLUMNS = {
  kind: 'event',
  step: 'event-step',
  serious: 'event-serious',
  nearMiss: 'event-near-miss',
  noticed: 'event-noticed',
  reviewedAt: 'event-reviewed-at',
  review: 'event-review',
} as const;

const headingOf = (set: ColumnSet, part: keyof EventCells): string | null =>
  set.own(EVENT_COLUMNS[part])?.heading ?? null;
