import { blankOf, type Blank } from '../table/blanks';
import type { CaseRows } from '../cases/case-keys';
import { cellOf, type ColumnSet } from '../headings/column-set';
import type { Draft } from '../cases/draft';
import { readHands, WHOSE_HANDS } from '../cases/hands';
import type { Ledger } from '../ledger';
import type { Unplaced, Working } from '../labels/place-labels';
import type { RowFacts } from '../table/row-facts';
import { whyNoTime, type RowMeaning, type RowTimes } from './stretch-rows';

/** One row as read, before it is known to which case it belongs. */
export type Read = { facts: RowFacts; meaning: RowMeaning; times: RowTimes; label: string };

/** A row may say something of its case without a time: an event, whose hands, a count of times returned to. */
export const isInformation = ({ row }: RowFacts, set: ColumnSet): boolean =>
  (['event', 'hands', 'returned-to', 'case-hands'] as const).some(
    (id) => blankOf(cellOf(row, set.own(id))) !== 'empty',
  );

/** The rows of one case put together: its times, whose hands, counts of times returned to. */
export function draftOf(
  { role, code, procedure, rows, listNumber, place }: CaseRows,
  inRows: ReadonlyMap<number, Read>,
  set: ColumnSet,
  file: { rising: boolean; blank: (blank: Blank) => 'not-done' | 'not-timed' },
  ledger: Ledger,
): Working {
  const draft: Draft = {
    role,
    code,
    listNumber,
    place,
    procedure,
    rows: [],
    lines: [],
    broken: [],
    hands: [],
    returns: [],
  };
  const lines: Unplaced[] = [];
  let clock: number | null = 0;
  for (const { row } of rows) {
    const read = inRows.get(row.row);
    if (!read) continue;
    const { meaning, facts, label } = read;
    if (facts.procedure !== procedure) {
      ledger.refuseRow(
        row.row,
        set.own('procedure')?.heading ?? null,
        cellOf(row, set.own('procedure')),
        'Another row of this case names another procedure. Give the two operations two codes, or correct one.',
      );
      continue;
    }
    const times = file.rising ? sinceLast(read.times, clock) : read.times;
    if (file.rising)
      clock =
        typeof read.times === 'object'
          ? read.times.seconds
          : file.blank(blankOf(cellOf(row, set.own('seconds'))) ?? 'empty') === 'not-done'
            ? clock
            : null;
    if (times === 'broken' && read.times !== 'broken')
      ledger.refuseRow(
        row.row,
        set.own('seconds')?.heading ?? null,
        cellOf(row, set.own('seconds')),
        'The row before gives no reading, so this length is not known.',
      );
    if (times === 'broken') {
      if (meaning.kind === 'step') draft.broken.push({ row: row.row, stepIds: meaning.stepIds });
      continue;
    }
    if (times === 'none' && !isInformation(facts, set)) {
      const text = cellOf(row, set.own('seconds') ?? set.own('end'));
      const blank = blankOf(text) ?? 'empty';
      ledger.refuseRow(
        row.row,
        set.own('seconds')?.heading ?? set.own('end')?.heading ?? null,
        text,
        whyNoTime(blank, file.blank(blank)),
      );
      continue;
    }
    draft.rows.push(row);
    if (times !== 'none')
      lines.push({
        row: row.row,
        column: set.own('step')?.heading ?? null,
        written: label,
        stepId: meaning.stepIds[0] ?? null,
        stepIds: meaning.stepIds,
        label,
        kind: meaning.kind,
        reason: meaning.reason,
        ...times,
      });
    sayOfStep(draft, row.row, facts, meaning, set, ledger);
  }
  return { draft, lines };
}

/** A reading becomes the length since the one before. */
function sinceLast(times: RowTimes, clock: number | null): RowTimes {
  if (typeof times !== 'object') return times;
  if (clock === null || times.seconds <= clock) return 'broken';
  return { start: clock, end: times.seconds, seconds: times.seconds - clock };
}

/** Whose hands, and how often returned to, as far as the row says it of its step. */
function sayOfStep(
  draft: Draft,
  row: number,
  facts: RowFacts,
  meaning: RowMeaning,
  set: ColumnSet,
  ledger: Ledger,
): void {
  const [stepId] = meaning.stepIds;
  if (stepId === undefined) return;
  const column = set.own('hands');
  const hands = readHands(cellOf(facts.row, column));
  if (hands === undefined) ledger.refuseCell(row, column?.heading ?? null, null, WHOSE_HANDS);
  if (hands !== null && meaning.kind === 'step') draft.hands.push({ row, stepId, hands: hands ?? 'shared' });
  const back = set.own('returned-to');
  const count = cellOf(facts.row, back);
  if (back && /^\d{1,3}$/.test(count)) draft.returns.push({ row, column: back.heading, stepId, count: Number(count) });
  else if (back && blankOf(count) === null)
    ledger.refuseCell(
      row,
      back.heading,
      count,
      `"${count}" is not a count. Write how often the step was returned to, or leave it empty.`,
    );
}
