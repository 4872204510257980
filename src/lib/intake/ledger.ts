import type { Problem } from '../model';

/**
 * The account of a file's rows: each is taken or named, none is lost. A cell can be refused while its row is taken.
 */
export type Ledger = {
  problems: Problem[];
  taken: Set<number>;
  named: Set<number>;
  /** The row is not taken, and this is why. */
  refuseRow: (row: number, column: string | null, value: string | null, why: string) => void;
  /** This cell is not taken. */
  refuseCell: (row: number | null, column: string | null, value: string | null, why: string) => void;
  /** Taken, and asked about. */
  query: (row: number | null, column: string | null, value: string | null, why: string) => void;
  take: (row: number) => void;
};

/** Letters of a cell that a sentence repeats: a cell that swallowed half a file would hide what is said of it. */
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
  const taken = new Set<number>();
  const named = new Set<number>();
  const add = (
    weight: Problem['weight'],
    row: number | null,
    column: string | null,
    value: string | null,
    why: string,
  ) => problems.push({ row, column, value, why: inBrief(why, value), weight });
  return {
    problems,
    taken,
    named,
    refuseRow: (row, column, value, why) => {
      named.add(row);
      add('refused', row, column, value, why);
    },
    refuseCell: (row, column, value, why) => add('refused', row, column, value, why),
    query: (row, column, value, why) => add('queried', row, column, value, why),
    take: (row) => taken.add(row),
  };
}
