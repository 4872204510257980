import { newDraft } from '../cases/draft';
import type { CaseRows } from '../cases/case-rows';
import { handsSaid, sayReturns } from '../cases/said-of-step';
import { cellOf, type ColumnSet } from '../headings/column';
import type { Unplaced, Working } from '../labels/place-labels';
import type { Ledger } from '../ledger';
import { blankOf, type Blank } from '../table/blanks';
import type { RowTimes } from './row-times';
import { isInformation, type ReadRow } from './stretch-rows';

/** The rows of one case put together: its times, whose hands, counts of times returned to. */
export function draftOf(
  ofCase: CaseRows<ReadRow>,
  set: ColumnSet,
  file: { rising: boolean; blank: (blank: Blank) => 'not-done' | 'not-timed' },
  ledger: Ledger,
): Working {
  const draft = newDraft(ofCase);
  const lines: Unplaced[] = [];
  const stepHeading = set.own('step')?.heading ?? null;
  let clock: number | null = 0;
  for (const read of ofCase.rows) {
    const { meaning } = read;
    const { row, procedure } = read.facts;
    if (procedure !== draft.procedure) {
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
    if (times === 'none' && !isInformation(row, set)) {
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
        column: stepHeading,
        written: read.written,
        stepId: meaning.stepIds[0] ?? null,
        stepIds: meaning.stepIds,
        label: read.written,
        kind: meaning.kind,
        reason: meaning.reason,
        start: times.start,
        end: times.end,
        seconds: times.seconds,
      });
    const [stepId] = meaning.stepIds;
    if (stepId === undefined) continue;
    const hands = handsSaid(row, set.own('hands'), ledger);
    if (hands !== null && meaning.kind === 'step') draft.hands.push({ row: row.row, stepId, hands });
    const returned = set.own('returned-to');
    if (returned) sayReturns(draft, row, stepId, returned, ledger);
  }
  return { draft, lines };
}

/** A reading becomes the length since the one before. */
function sinceLast(times: RowTimes, clock: number | null): RowTimes {
  if (typeof times !== 'object') return times;
  if (clock === null || times.seconds <= clock) return 'broken';
  return { start: clock, end: times.seconds, seconds: times.seconds - clock };
}

/** Why a row without a time is not taken. */
const whyNoTime = (blank: Blank, meaning: 'not-done' | 'not-timed'): string =>
  blank === 'empty' && meaning === 'not-timed'
    ? 'There is no time in this row; the step counts as not timed. Fill in start and end, or a length.'
    : meaning === 'not-done'
      ? 'There is no time in this row; the step counts as not done.'
      : 'There is no time in this row; the step counts as not timed.';
