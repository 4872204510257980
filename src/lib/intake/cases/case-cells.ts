import { cellOf, type Column } from '../headings/column';
import type { Ledger } from '../ledger';
import type { blankMeaning } from '../table/blank-meaning';
import { blankOf } from '../table/blanks';
import type { Row } from '../table/cells';
import { toMilliseconds } from '../table/duration';
import type { TimeReader } from '../table/time-cells';
import type { Draft, Line } from './draft';

export type OfStep = { stepId: string; column: Column };
export type PairOfStep = { stepId: string; start: Column; end: Column };

const line = (
  row: Row,
  column: Column,
  stepId: string,
  times: Pick<Line, 'start' | 'end' | 'seconds'>,
  kind: Line['kind'] = 'step',
): Line => ({
  row: row.row,
  column: column.heading,
  written: cellOf(row, column),
  stepId,
  kind,
  reason: null,
  ...times,
});

/** A length of a step, or of its waiting. */
export function addLine(
  draft: Draft,
  row: Row,
  stepId: string,
  column: Column,
  kind: 'step' | 'waiting',
  read: TimeReader,
  ledger: Ledger,
): void {
  const text = cellOf(row, column);
  if (blankOf(text) !== null) return;
  const found = read(text, column, 'length');
  if ('seconds' in found)
    draft.lines.push(line(row, column, stepId, { start: null, end: null, seconds: found.seconds }, kind));
  else refuse(draft, row, column, stepId, found.problem, ledger);
}

function refuse(draft: Draft, row: Row, column: Column, stepId: string, why: string, ledger: Ledger): void {
  ledger.refuseCell(row.row, column.heading, cellOf(row, column), why);
  draft.broken.push({ row: row.row, stepIds: [stepId] });
}

/** Readings of one clock: a length is a reading less the one before; after a step not timed the next length is not known. */
export function readRising(
  draft: Draft,
  row: Row,
  times: readonly OfStep[],
  read: TimeReader,
  blank: ReturnType<typeof blankMeaning>,
  ledger: Ledger,
): void {
  let clock: number | null = 0;
  for (const { stepId, column } of times) {
    const text = cellOf(row, column);
    const left = blankOf(text);
    if (left !== null) {
      if (blank(left) === 'not-timed') clock = null;
      continue;
    }
    const found = read(text, column, 'reading');
    if ('problem' in found || (clock !== null && found.seconds <= clock)) {
      refuse(
        draft,
        row,
        column,
        stepId,
        'problem' in found ? found.problem : `The reading ${text} is not later than the one before it. Check both.`,
        ledger,
      );
      clock = null;
      continue;
    }
    if (clock === null)
      refuse(
        draft,
        row,
        column,
        stepId,
        'The reading before this one is missing, so the length of this step is not known. Fill it in, or say that the step before was not done.',
        ledger,
      );
    else
      draft.lines.push(
        line(row, column, stepId, { start: clock, end: found.seconds, seconds: toMilliseconds(found.seconds - clock) }),
      );
    clock = found.seconds;
  }
}

/** A start and an end. */
export function addPair(
  draft: Draft,
  row: Row,
  { stepId, start, end }: PairOfStep,
  read: TimeReader,
  ledger: Ledger,
): void {
  const [from, to] = [cellOf(row, start), cellOf(row, end)];
  if (blankOf(to) !== null && blankOf(from) !== null) return;
  const [begin, stop] = [read(from, start, 'reading'), read(to, end, 'reading')];
  if ('problem' in begin) return refuse(draft, row, start, stepId, begin.problem, ledger);
  if ('problem' in stop) return refuse(draft, row, end, stepId, stop.problem, ledger);
  const seconds = toMilliseconds(stop.seconds - begin.seconds);
  if (seconds <= 0)
    return refuse(draft, row, end, stepId, `The end (${to}) is not after the start (${from}). Check both.`, ledger);
  draft.lines.push(line(row, end, stepId, { start: begin.seconds, end: stop.seconds, seconds }));
}
