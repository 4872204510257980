import type { Ledger } from '../ledger';
import { headingPointsToAPerson } from '../table/people';
import type { ColumnSet } from './column';
import type { Layout } from './targets';

/** The column that tells cases apart; `null` where every row is a case. `person`: it points to a patient, so new codes are given. */
export type CodeColumn = { column: number | null; person: boolean };

/** Columns that point to a person are named, and not read. */
export function namePeople(set: ColumnSet, ledger: Ledger): void {
  for (const { heading, target } of set.columns)
    if (target.what === 'leave' && target.because === 'person')
      ledger.refuseCell(
        null,
        heading,
        null,
        `"${heading}" points to a person, so nothing under it is read. Take the column out of the file; this record holds no names, hospital numbers or birth dates.`,
      );
}

/** One of its own, or, where there is none, one that points to a patient and is replaced by new codes. */
export function codeColumn(set: ColumnSet, layout: Layout, ledger: Ledger): CodeColumn | null {
  const own = set.own('case');
  if (own) return { column: own.index, person: headingPointsToAPerson(own.heading) };
  const person = set.columns.find(({ target }) => target.what === 'leave' && target.because === 'person');
  if (person) return { column: person.index, person: true };
  if (layout !== 'stretches') {
    ledger.query(null, null, null, 'No column holds a code of the case, so each row is taken as a case and given one.');
    return { column: null, person: false };
  }
  ledger.refuseCell(
    null,
    'case_id',
    null,
    "No column says which case a row belongs to. Add a column case_id with a code of your own, never a patient's.",
  );
  return null;
}
