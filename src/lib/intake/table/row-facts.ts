import type { Procedure } from '../../model';
import { mapped, type Work } from '../../turns';
import { surgeonRoles, type Role } from '../cases/surgeons';
import type { Context } from '../context';
import { cellOf } from '../headings/column-set';
import type { Table } from '../headings/table';
import { procedureReader } from '../headings/which-procedure';
import { plainWords } from '../labels/plain-words';
import type { Ask } from '../questions';
import { intakeThresholds } from '../thresholds';
import type { Row } from './cells';
import { codePointsToAPatient } from './people';

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

/** Rows that people put under a table and that are not cases. */
const SUMMARY =
  /^(overall |grand |column )?(mean|means|average|averages|avg|median|sd|s d|st ?dev|std|std dev|standard deviation|sem|se|variance|total|totals|sum|subtotal|min|max|minimum|maximum|range|count|n|iqr|ci|95 ci|percentile|quartile|target|usual)( (time|times|s|sec|value|values|all|of all|case|cases|\d+))*$/;

/**
 * Passes over what is no case (means, totals, a heading repeated, rows of surgeons left out, of a procedure nobody
 * knows), each named, and says of the rest whose they are. A code missing under a merged cell is the one above, if so answered.
 */
export function* rowFacts(table: Table, context: Context): Work<FileFacts> {
  const { set, headings, code } = table;
  const { ask, ledger } = context;
  const isCase = yield* mapped(table.body, (row) => {
    const why = whyNoCase(row, table);
    if (why) ledger.refuseRow(row.row, null, why.named, why.why);
    return why === null;
  });
  const kept = table.body.filter((_, index) => isCase[index]);
  const roleOf = yield* surgeonRoles(kept, set.own('surgeon'), ask);
  const fillsDown = yield* codeFillsDown(kept, table, ask);
  const procedureOf = procedureReader(set, table.procedure, context);
  let above = '';
  const facts = yield* mapped(kept, (row): RowFacts | null => {
    const written = code.column === null ? `row ${row.row}` : (row.cells[code.column] ?? '');
    above = written || above;
    const role = roleOf(row);
    if (role === 'leave') {
      ledger.refuseRow(
        row.row,
        set.own('surgeon')?.heading ?? null,
        null,
        'A row of another surgeon, left out. Answer "Who is …" to take it as reference.',
      );
      return null;
    }
    const ofCase = fillsDown ? above : written;
    if (ofCase === '') {
      ledger.refuseRow(
        row.row,
        headings[code.column ?? 0] ?? null,
        '',
        'This row has no case. Write the code of the case, or leave the row out.',
      );
      return null;
    }
    const procedure = procedureOf(row);
    if (procedure === null) return null;
    if (table.layout !== 'stretches' && procedure !== table.procedure) {
      const column = set.own('procedure');
      ledger.refuseRow(
        row.row,
        column?.heading ?? null,
        cellOf(row, column),
        `The columns of this sheet are steps of ${table.procedure.name.toLowerCase()}. Bring in the rows of the other procedure as a file of their own.`,
      );
      return null;
    }
    return {
      row,
      role,
      code: ofCase,
      list: cellOf(row, set.own('list')),
      date: cellOf(row, set.own('date')),
      procedure,
    };
  });
  const rows = facts.filter((one) => one !== null);
  const freshCodes =
    code.column === null || (yield* newCodesWanted(rows, code.person ? (headings[code.column] ?? '') : null, ask));
  return { rows, freshCodes };
}

function whyNoCase(row: Row, { code, headings, set }: Table): { named: string | null; why: string } | null {
  const first = row.cells.find((cell) => cell !== '') ?? '';
  const ofCode = code.column === null ? '' : (row.cells[code.column] ?? '');
  const named = [ofCode, first, cellOf(row, set.own('step'))].find((cell) => SUMMARY.test(plainWords(cell)));
  if (named !== undefined) return { named, why: `This row is named "${named}" and is not a case; it is left out.` };
  const repeats =
    row.cells.length > 1 &&
    row.cells.length === headings.length &&
    row.cells.every((cell, index) => cell === headings[index]);
  return repeats ? { named: null, why: 'This row repeats the headings; it is left out.' } : null;
}

/** Merged cells leave the code in the first row of a case only: then it holds for the rows below, if so answered. */
function* codeFillsDown(rows: readonly Row[], { code: { column }, set }: Table, ask: Ask): Work<boolean> {
  if (column === null || !set.own('step')) return false;
  const written = yield* mapped(rows, (row) => row.cells[column] ?? '');
  const missing = rows.filter((_, index) => written[index] === '');
  if (missing.length === 0) return false;
  const answer = ask({
    id: 'empty-code',
    question: 'Some rows have no case. Do they belong to the case above?',
    options: [
      { value: 'above', label: 'yes, to the case above' },
      { value: 'leave', label: 'no: leave these rows out' },
    ],
    // A code in one row of several is a merged cell; a few missing among many are slips.
    guess: written[0] !== '' && missing.length > rows.length / 3 ? 'above' : 'leave',
    examples: missing
      .slice(0, intakeThresholds.examples)
      .map((row) => ({ row: row.row, text: row.cells.filter((cell) => cell !== '').join(' · ') })),
  });
  return answer === 'above';
}

/** A person's heading under which people do keep codes of their own ("patient no"). */
const MAY_BE_OWN = /(^| )(id|no|nr|number|code|ref|identifier)$/;

/**
 * Asked once a file: are these codes the surgeon's own, or could they lead to a patient?
 *
 * @param personHeading heading of the column where it points to a person, else `null`.
 */
function* newCodesWanted(facts: readonly RowFacts[], personHeading: string | null, ask: Ask): Work<boolean> {
  const codes = new Set<string>();
  yield* mapped(facts, ({ code }) => codes.add(code));
  const distinct = [...codes];
  const telling = (yield* mapped(distinct, codePointsToAPatient)).filter(Boolean).length;
  const tooLong = distinct.some((code) => code.length > intakeThresholds.codeLength);
  if (personHeading === null && telling === 0 && !tooLong) return false;
  const mayKeep = !tooLong && (personHeading === null || (telling === 0 && MAY_BE_OWN.test(plainWords(personHeading))));
  const seems =
    personHeading === null
      ? `${telling || 1} of ${distinct.length} codes look as if they could identify a patient.`
      : "The only column that tells cases apart looks like a patient's number or name.";
  const answer = ask({
    id: 'codes',
    question: `${seems} New codes are given and no key is kept: if you need one, write it in your own secure register now.`,
    options: [
      { value: 'new', label: 'give new codes' },
      ...(mayKeep ? [{ value: 'keep', label: 'keep them: they are my own codes and identify nobody' }] : []),
    ],
    guess: 'new',
    mustAnswer: true,
  });
  return answer === 'new';
}
