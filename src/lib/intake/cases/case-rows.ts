import type { Procedure } from '../../model';
import type { RowTimes } from '../stretches/row-times';
import type { RowFacts } from '../table/row-facts';

/** A row with what tells whether it continues a case: the label it carries, and its clock readings. It points to its facts: a copy of them a row would double what a large file takes. */
export type Keyed = { facts: RowFacts; label: string; times: RowTimes };

/** One case of the file: its rows, its code, and its list and place where the numbers themselves gave them. */
export type CaseRows<Read extends Keyed> = {
  role: RowFacts['role'];
  code: string;
  /** Of its first row. */
  procedure: Procedure;
  rows: readonly [Read, ...Read[]];
  listNumber: number | null;
  place: number | null;
};

/** Rows under one code that can belong to one operation. `first`: where the code stood before for another one. */
export type Occurrence<Read extends Keyed> = {
  role: RowFacts['role'];
  code: string;
  first: Occurrence<Read> | null;
  rows: [Read, ...Read[]];
  list: string;
  date: string;
  labels: Set<string>;
  /** Where they stand on the clock: start, end, start, end … */
  spans: number[];
};

export const caseOf = <Read extends Keyed>({ role, code, rows }: Occurrence<Read>, as = code): CaseRows<Read> => ({
  role,
  code: as,
  procedure: rows[0].facts.procedure,
  rows,
  listNumber: null,
  place: null,
});

export const differs = (a: string, b: string): boolean => a !== '' && b !== '' && a !== b;
