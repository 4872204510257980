import { parted, type Steps } from '../../turns';
import type { Ledger } from '../ledger';
import type { Row, Sheet } from '../table/cells';
import { textPointsToAPerson } from '../table/people';
import { swallowedRows } from '../table/torn-rows';
import { weights } from '../weights';
import type { Found } from './find-headings';

/** Is there something to read under headings? What is wrong with the rows themselves is named. */
export function* rowsUnder(found: Found | null, sheet: Sheet, ledger: Ledger): Steps<Found | null> {
  if (sheet.brokenQuoteRow !== null)
    ledger.query(
      sheet.brokenQuoteRow,
      null,
      null,
      'A quotation mark is opened here and never closed; quotation marks are read as ordinary characters. Close it if a cell holds a line break.',
    );
  if (!found) {
    sayNoHeadings(sheet, ledger);
    return null;
  }
  for (const { row, cells } of found.above)
    ledger.refuseRow(
      row,
      null,
      cells.find((cell) => cell !== '') ?? null,
      'This row stands above the headings; it is left out.',
    );
  if (found.body.length === 0) {
    ledger.refuseFile('There are headings and no rows under them. Add a row for each stretch or case.');
    return null;
  }
  for (const part of parted(found.body)) {
    yield part.length * weights.row;
    for (const row of part) {
      askAboutTorn(row, swallowedRows(row, sheet.delimiter, found.headings.length), ledger);
      askAboutBeyond(row, found.headings.length, ledger);
    }
  }
  return found;
}

/** Names what is missing where nothing could be found. */
function sayNoHeadings({ rows: [first] }: Sheet, ledger: Ledger): void {
  // A first row that is no heading may hold a person's data: then it is not repeated.
  const shown = first?.cells.join(' · ').slice(0, 120) ?? null;
  const safe = first?.cells.some(textPointsToAPerson) ? null : shown;
  const why = first
    ? 'No headings were understood. The first row must name the columns: case_id, step and start_s, end_s or seconds; or case_id and one column for each step. Say below what each column holds, or add the headings.'
    : 'The file is empty. Bring in a file with one row for each stretch or case, under headings.';
  ledger.refuseCell(first?.row ?? null, null, safe, why);
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
