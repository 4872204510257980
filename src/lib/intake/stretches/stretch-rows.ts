import type { Procedure } from '../../model';
import { parted, type Steps } from '../../turns';
import type { Keyed } from '../cases/case-rows';
import type { Context } from '../context';
import { cellOf, type ColumnSet } from '../headings/column';
import type { LabelPlan } from '../labels/label-plan';
import { remembered } from '../labels/once-per';
import { noteBlank, type BlanksSeen } from '../table/blank-meaning';
import { blankOf } from '../table/blanks';
import type { Row } from '../table/cells';
import type { RowFacts } from '../table/row-facts';
import type { TimeReader } from '../table/time-cells';
import { weights } from '../weights';
import { rowMeanings, type RowMeaning } from './row-meaning';
import { rowTimes } from './row-times';

/** One row as read, before it is known to which case it belongs; its label as written. */
export type ReadRow = Keyed & { meaning: RowMeaning; written: string };

/** A row may say something of its case without a time: an event, whose hands, a count of times returned to. */
export const isInformation = (row: Row, set: ColumnSet): boolean =>
  (['event', 'hands', 'returned-to', 'case-hands'] as const).some(
    (id) => blankOf(cellOf(row, set.own(id))) !== 'empty',
  );

const isWaiting = (row: Row, set: ColumnSet): boolean =>
  /^(w|wait|gap|idle|pause|delay)/i.test(cellOf(row, set.own('kind')));

/**
 * Reads each row by itself: what it is, and its times. A row of which nothing is known is named, and goes no further.
 *
 * @returns the rows, and the ways in which they leave a time out
 */
export function* stretchRows(
  rows: readonly RowFacts[],
  set: ColumnSet,
  plans: ReadonlyMap<Procedure, ReadonlyMap<string, LabelPlan>>,
  read: TimeReader,
  { ledger }: Context,
): Steps<{ readRows: ReadRow[]; blanks: BlanksSeen }> {
  const meaningOf = new Map([...plans.keys()].map((procedure) => [procedure, rowMeanings(procedure)]));
  const readRows: ReadRow[] = [];
  const blanks: BlanksSeen = new Map();
  const labelled = (kind: RowMeaning['kind']) => remembered((written) => `${kind} ${written.toLowerCase()}`);
  const labels = { step: labelled('step'), waiting: labelled('waiting'), protected: labelled('protected') };
  const readRow = (facts: RowFacts): void => {
    const { row, procedure } = facts;
    const written = cellOf(row, set.own('step'));
    const plan = written === '' && isWaiting(row, set) ? undefined : plans.get(procedure)?.get(written);
    const bare = written === '' && isInformation(row, set);
    const meaning: RowMeaning | null | undefined = bare
      ? { kind: 'step', stepIds: [], reason: null }
      : meaningOf.get(procedure)?.(row, set, plan, ledger);
    if (!meaning) return;
    const times = bare ? 'none' : rowTimes(row, set, read, ledger);
    if (times === 'none' && !bare) noteBlank(blanks, row.row, cellOf(row, set.own('seconds') ?? set.own('end')));
    readRows.push({ facts, label: labels[meaning.kind](written), times, meaning, written });
  };
  for (const part of parted(rows)) {
    yield part.length * weights.row;
    for (const facts of part) {
      readRow(facts);
    }
  }
  return { readRows, blanks };
}
