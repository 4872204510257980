import { cellOf, type Column } from '../headings/column';
import type { Hands } from '../../model';
import type { Ledger } from '../ledger';
import { blankOf } from '../table/blanks';
import type { Row } from '../table/cells';
import type { Draft } from './draft';
import { readHands, WHOSE_HANDS } from './hands';

/** Whose hands did a step, as far as this cell says it. Words not known may be a colleague's name: not repeated, and taken as shared. */
export function handsSaid(row: Row, column: Column | undefined, ledger: Ledger): Hands | null {
  const hands = readHands(cellOf(row, column));
  if (hands === undefined) ledger.refuseCell(row.row, column?.heading ?? null, null, WHOSE_HANDS);
  return hands === undefined ? 'shared' : hands;
}

/** How often the step was returned to, as far as this cell says it. */
export function sayReturns(draft: Draft, row: Row, stepId: string, column: Column, ledger: Ledger): void {
  const count = cellOf(row, column);
  if (/^\d{1,3}$/.test(count))
    draft.returns.push({ row: row.row, column: column.heading, stepId, count: Number(count) });
  else if (blankOf(count) === null)
    ledger.refuseCell(
      row.row,
      column.heading,
      count,
      `"${count}" is not a count. Write how often the step was returned to, or leave it empty.`,
    );
}
