import { cellOf, type ColumnSet } from '../headings/column';
import type { Ledger } from '../ledger';
import { blankOf } from '../table/blanks';
import type { Row } from '../table/cells';
import { toMilliseconds } from '../table/duration';
import type { TimeReader } from '../table/time-cells';
import { intakeThresholds } from '../thresholds';

/** The time line of a chapter, where it could not be read. */
const ARROW = /-+>|→/;
const TIME_LINE = 'This time line of a chapter cannot be read. Write it as 00:01.000 --> 00:59.000.';

/** The times of one row: clock readings and length, only a length, or none. */
export type RowTimes = { start: number | null; end: number | null; seconds: number } | 'none' | 'broken';

/** Reads start, end and length of a row; what is wrong is named, and the row is then not taken. */
export function rowTimes(row: Row, set: ColumnSet, read: TimeReader, ledger: Ledger): RowTimes {
  const [start, end, length] = [set.own('start'), set.own('end'), set.own('seconds')];
  const written = { start: cellOf(row, start), end: cellOf(row, end), length: cellOf(row, length) };
  const clocked = start && end && isWritten(written.start, 'reading') && isWritten(written.end, 'reading');
  if (start && end && clocked) {
    const from = read(written.start, start, 'reading');
    const to = read(written.end, end, 'reading');
    if ('problem' in from)
      return broken(
        ledger,
        row.row,
        start.heading,
        written.start,
        ARROW.test(written.start) ? TIME_LINE : from.problem,
      );
    if ('problem' in to) return broken(ledger, row.row, end.heading, written.end, to.problem);
    const seconds = toMilliseconds(to.seconds - from.seconds);
    if (seconds < 0)
      return broken(
        ledger,
        row.row,
        end.heading,
        written.end,
        `The end (${written.end}) is before the start (${written.start}). Check both; perhaps they are swapped.`,
      );
    if (seconds === 0)
      return broken(
        ledger,
        row.row,
        end.heading,
        written.end,
        `Start and end are the same (${written.end}), so the stretch has no length. Check both.`,
      );
    if (seconds > intakeThresholds.longestSeconds)
      return broken(ledger, row.row, end.heading, written.end, 'From start to end is more than two hours. Check both.');
    return {
      start: from.seconds,
      end: to.seconds,
      seconds: agreedLength(row.row, seconds, written.length, length, read, ledger),
    };
  }
  if (length && isWritten(written.length, 'length')) {
    const read_ = read(written.length, length, 'length');
    if ('problem' in read_) return broken(ledger, row.row, length.heading, written.length, read_.problem);
    return { start: null, end: null, seconds: read_.seconds };
  }
  const half =
    start && isWritten(written.start, 'reading') ? end : end && isWritten(written.end, 'reading') ? start : undefined;
  return half
    ? broken(
        ledger,
        row.row,
        half.heading,
        cellOf(row, half),
        `This stretch has only one of start and end. Fill in the other.`,
      )
    : 'none';
}

/** Zero is a way of leaving a length out, but the first reading of any clock. */
const isWritten = (text: string, as: 'reading' | 'length'): boolean => {
  const blank = blankOf(text);
  return blank === null || (as === 'reading' && blank === 'zero');
};

function broken(ledger: Ledger, row: number, column: string, value: string, why: string): 'broken' {
  ledger.refuseRow(row, column, value, why);
  return 'broken';
}

function agreedLength(
  row: number,
  seconds: number,
  written: string,
  column: ReturnType<ColumnSet['own']>,
  read: TimeReader,
  ledger: Ledger,
): number {
  if (!column || blankOf(written) !== null) return seconds;
  const length = read(written, column, 'length');
  if ('seconds' in length && Math.abs(length.seconds - seconds) <= intakeThresholds.roundingSeconds)
    return length.seconds;
  ledger.query(
    row,
    column.heading,
    written,
    `The length does not fit start and end (${seconds} s); start and end are used.`,
  );
  return seconds;
}
