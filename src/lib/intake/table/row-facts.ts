import type { Procedure } from '../../model';
import { parted, type Steps } from '../../turns';
import { surgeonRoles, type Role } from '../cases/surgeons';
import type { Context } from '../context';
import { cellOf } from '../headings/column';
import { remembered } from '../labels/once-per';
import { procedureReader } from '../headings/procedure-of-row';
import type { Table } from '../headings/table';
import { weights } from '../weights';
import { codeFillsDown, newCodesWanted } from './case-codes';
import type { Row } from './cells';
import { ROWS_LEFT, rowsLeft } from './rows-left';
import { isSummaryName } from './summary-rows';

/** A row that may become part of a case: whose it is, and the code it carries. */
export type RowFacts = {
  row: Row;
  role: Exclude<Role, 'leave'>;
  code: string;
  list: string;
  date: string;
  procedure: Procedure;
};

/** `freshCodes`: the codes may lead to a patient, so each case is given a new one. */
export type FileFacts = { rows: RowFacts[]; freshCodes: boolean };

/**
 * Passes over what is no case (means, totals, a heading repeated, rows of surgeons left out, of a procedure nobody
 * knows), each named, and says of the rest whose they are. A code missing under a merged cell is the one above, if so answered.
 */
export function* rowFacts(table: Table, context: Context): Steps<FileFacts> {
  const { set, headings, code } = table;
  const { ask, ledger, besideOwn } = context;
  const kept: Row[] = [];
  const left = rowsLeft(context.choices[ROWS_LEFT] ?? '');
  const isSummary = remembered(isSummaryName);
  for (const part of parted(table.body)) {
    yield part.length * weights.row;
    for (const row of part) {
      const why = whyNoCase(row, table, isSummary);
      if (left.has(row.row)) ledger.refuseRow(row.row, null, null, 'Left out, as you chose.');
      else if (why) ledger.refuseRow(row.row, null, why.named, why.why);
      else kept.push(row);
    }
  }
  const named = Object.keys(context.choices).some((id) => id.startsWith('surgeon:'));
  const roleOf = yield* surgeonRoles(kept, set.own('surgeon'), ask, { named, besideOwn });
  const procedureOf = procedureReader(set, table.procedure, context);
  const fillsDown = yield* codeFillsDown(kept, table, ask);
  const rows: RowFacts[] = [];
  let above = '';
  for (const part of parted(kept)) {
    yield part.length * weights.row;
    for (const row of part) {
      const written = code.column === null ? `row ${row.row}` : (row.cells[code.column] ?? '');
      above = written || above;
      const role = roleOf(row);
      if (role === 'leave') {
        ledger.refuseRow(
          row.row,
          set.own('surgeon')?.heading ?? null,
          null,
          'A row of another surgeon: left out unless you say otherwise at "Who is …".',
        );
        continue;
      }
      const ofCase = fillsDown ? above : written;
      if (ofCase === '') {
        ledger.refuseRow(
          row.row,
          headings[code.column ?? 0] ?? null,
          '',
          'This row has no case. Write the code of the case, or leave the row out.',
        );
        continue;
      }
      const procedure = procedureOf(row);
      if (procedure === null) continue;
      if (table.layout !== 'stretches' && procedure !== table.procedure) {
        const column = set.own('procedure');
        ledger.refuseRow(
          row.row,
          column?.heading ?? null,
          cellOf(row, column),
          `The columns of this sheet are steps of ${table.procedure.name.toLowerCase()}. Bring in the rows of the other procedure as a file of their own.`,
        );
        continue;
      }
      rows.push({
        row,
        role,
        code: ofCase,
        list: cellOf(row, set.own('list')),
        date: cellOf(row, set.own('date')),
        procedure,
      });
    }
  }
  const freshCodes =
    code.column === null || (yield* newCodesWanted(rows, code.person ? (headings[code.column] ?? '') : null, ask));
  return { rows, freshCodes };
}

function whyNoCase(
  row: Row,
  { code, headings, set }: Table,
  isSummary: (text: string) => boolean,
): { named: string | null; why: string } | null {
  const first = row.cells.find((cell) => cell !== '') ?? '';
  const ofCode = code.column === null ? '' : (row.cells[code.column] ?? '');
  const named = [ofCode, first, cellOf(row, set.own('step'))].find(isSummary);
  if (named !== undefined) return { named, why: `This row is named "${named}" and is not a case; it is left out.` };
  const repeats =
    row.cells.length > 1 &&
    row.cells.length === headings.length &&
    row.cells.every((cell, index) => cell === headings[index]);
  return repeats ? { named: null, why: 'This row repeats the headings; it is left out.' } : null;
}
