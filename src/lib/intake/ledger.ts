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

export function newLedger(): Ledger {
  const problems: Problem[] = [];
  const taken = new Set<number>();
  const named = new Set<number>();
  return {
    problems,
    taken,
    named,
    refuseRow: (row, column, value, why) => {
      named.add(row);
      problems.push({ row, column, value, why, weight: 'refused' });
    },
    refuseCell: (row, column, value, why) => problems.push({ row, column, value, why, weight: 'refused' }),
    query: (row, column, value, why) => problems.push({ row, column, value, why, weight: 'queried' }),
    take: (row) => taken.add(row),
  };
}
