import type { Procedure } from '../../model';
import { mapped, type Work } from '../../turns';
import type { Context } from '../context';
import type { Ledger } from '../ledger';
import type { Row, Sheet } from '../table/cells';
import { headingPointsToAPerson } from '../table/people';
import { swallowedRows } from '../table/torn-rows';
import { isOurs } from '../write/write-headings';
import { columnSet, type ColumnSet } from './column-set';
import { findHeadings, sayNoHeadings } from './find-headings';
import type { Layout } from './targets';
import { mainProcedure } from './which-procedure';

/** A sheet whose headings are understood. */
export type Table = {
  layout: Layout;
  procedure: Procedure;
  headings: readonly string[];
  set: ColumnSet;
  /** Rows under the headings. */
  body: readonly Row[];
  rowsIn: number;
  /** This tool wrote the file. */
  ours: boolean;
  /** The column that tells cases apart; `null` where every row is a case. `person`: it points to a patient, so new codes are given. */
  code: { column: number | null; person: boolean };
};

/** Finds headings, procedure and columns of a sheet. `null`: they cannot be understood, and the ledger says why. */
export function* tableOf(sheet: Sheet, context: Context): Work<Table | null> {
  const { ledger, ask, choices } = context;
  if (sheet.brokenQuoteRow !== null)
    ledger.query(
      sheet.brokenQuoteRow,
      null,
      null,
      'A quotation mark is opened here and never closed; quotation marks are read as ordinary characters. Close it if a cell holds a line break.',
    );
  const found = yield* findHeadings(sheet, context.procedures, choices);
  if (!found) {
    sayNoHeadings(sheet, ledger);
    return null;
  }
  const { headings, body, above } = found;
  for (const { row, cells } of above)
    ledger.refuseRow(
      row,
      null,
      cells.find((cell) => cell !== '') ?? null,
      'This row stands above the headings; it is left out.',
    );
  if (body.length === 0) {
    ledger.refuseFile('There are headings and no rows under them. Add a row for each stretch or case.');
    return null;
  }
  yield* mapped(body, (row) => {
    askAboutTorn(row, swallowedRows(row, sheet.delimiter, headings.length), ledger);
    askAboutBeyond(row, headings.length, ledger);
  });
  const procedure = yield* mainProcedure(headings, body, found.layout, context);
  const set = yield* columnSet(headings, body, procedure, found.layout, choices, ask, ledger);
  // Somebody may have said by hand that a column holds times after all.
  const timed = set.columns.some(({ target }) => target.what === 'step-time');
  const layout = found.layout === 'sheet' && timed ? 'cases' : found.layout;
  namePeople(set, ledger);
  const code = codeColumn(set, layout, ledger);
  return (
    code && { layout, procedure, headings, set, body, rowsIn: body.length + above.length, ours: isOurs(headings), code }
  );
}

function askAboutTorn({ row }: Row, swallowed: number, ledger: Ledger): void {
  const [lines, rows] = swallowed === 1 ? ['a line that looks', 'a row'] : [`${swallowed} lines that look`, 'rows'];
  if (swallowed > 0)
    ledger.query(
      row,
      null,
      null,
      `A cell of this row holds ${lines} like ${rows} of the sheet: a quotation mark is probably missing, or one too many. Correct it and bring the file in again.`,
    );
}

/** A delimiter too many, or a comma inside a number, moves every later cell under the wrong heading. */
function askAboutBeyond({ row, cells }: Row, columns: number, ledger: Ledger): void {
  const beyond = cells.slice(columns).find((cell) => cell !== '');
  if (beyond !== undefined)
    ledger.query(
      row,
      null,
      beyond,
      `This row has ${cells.length} cells under ${columns} headings; what lies beyond the last heading is not read. Is there a delimiter too many, or a decimal comma, so that its values stand under the wrong headings?`,
    );
}

function namePeople(set: ColumnSet, ledger: Ledger): void {
  for (const { heading, target } of set.columns)
    if (target.what === 'leave' && target.because === 'person')
      ledger.refuseCell(
        null,
        heading,
        null,
        `"${heading}" points to a person, so nothing under it is read. Take the column out of the file; this record holds no names, numbers or birth dates.`,
      );
}

/** One of its own, or, where there is none, one that points to a patient and is replaced by new codes. */
function codeColumn(set: ColumnSet, layout: Layout, ledger: Ledger): Table['code'] | null {
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
