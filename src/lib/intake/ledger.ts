import type { Problem } from '../model';
import { RowSet } from './row-set';
import { intakeThresholds } from './thresholds';

/**
 * The account of a file's rows: each is taken or named, none is lost. A cell can be refused while its row is taken.
 */
export type Ledger = {
  /** The first of them; `counts` holds all. */
  problems: Problem[];
  counts: Record<Problem['weight'], number>;
  taken: RowSet;
  named: Set<number>;
  /** Rows of which something is refused or asked about; all of them, however many problems are listed. */
  rows: Record<Problem['weight'], Set<number>>;
  /** The row is not taken, and this is why. */
  refuseRow: (row: number, column: string | null, value: string | null, why: string) => void;
  /** This cell is not taken. */
  refuseCell: (row: number | null, column: string | null, value: string | null, why: string) => void;
  /** Nothing of the file is taken. */
  refuseFile: (why: string, row?: number | null) => void;
  /** Taken, and asked about. */
  query: (row: number | null, column: string | null, value: string | null, why: string) => void;
  take: (row: number) => void;
};

/**
 * How many characters of a cell a sentence repeats: a cell that swallowed half a file would hide the message about it.
 */
const REPEATED = 60;

/** A cell as a sentence repeats it: on one line, its beginning. */
export function briefly(value: string): string {
  const line = value.slice(0, 2 * REPEATED).replace(/\s*[\r\n]+\s*/g, ' ');
  return line.length > REPEATED ? `${line.slice(0, REPEATED)}…` : line;
}

function inBrief(why: string, value: string | null): string {
  if (value === null) return why;
  const brief = briefly(value);
  return brief === value ? why : why.replaceAll(value, () => brief);
}

export function newLedger(): Ledger {
  const problems: Problem[] = [];
  const counts = { refused: 0, queried: 0 };
  const rows = { refused: new Set<number>(), queried: new Set<number>() };
  const taken = new RowSet();
  const named = new Set<number>();
  const add =
    (weight: Problem['weight']): Ledger['query'] =>
    (row, column, value, why) => {
      counts[weight] += 1;
      if (row !== null) rows[weight].add(row);
      if (problems.length < intakeThresholds.problemsListed)
        problems.push({ row, column, value, why: inBrief(why, value), weight });
    };
  const refuseCell = add('refused');
  return {
    problems,
    counts,
    rows,
    taken,
    named,
    refuseRow: (row, column, value, why) => {
      named.add(row);
      refuseCell(row, column, value, why);
    },
    refuseCell,
    refuseFile: (why, row = null) => refuseCell(row, null, null, why),
    query: add('queried'),
    take: (row) => taken.add(row),
  };
}
