import { mapped, type Work } from '../../turns';
import { cellOf, type ColumnSet, type Row } from './column-set';
import { codePointsToAPatient } from './people';
import type { Ledger } from '../ledger';
import { plainWords } from '../labels/plain-words';
import type { Ask } from '../questions';
import { surgeonRoles, type Role } from '../cases/surgeons';
import { intakeThresholds } from '../thresholds';

/** A row that may become part of a case: whose it is, and the code it carries. */
export type RowFacts = { row: Row; role: Exclude<Role, 'leave'>; code: string; list: string; date: string };

/** Rows people put under a table that are no cases. */
const SUMMARY =
  /^(overall |grand |column )?(mean|means|average|averages|avg|median|sd|s d|st ?dev|std|std dev|standard deviation|sem|se|variance|total|totals|sum|subtotal|min|max|minimum|maximum|range|count|n|iqr|ci|95 ci|percentile|quartile|target|usual)( (time|times|s|sec|value|values|all|of all|case|cases|\d+))*$/;

/**
 * Passes over what is no case (means, totals, a heading repeated, rows of surgeons left out), each named, and says
 * of the rest whose they are. A code missing under a merged cell is the one above, if so answered.
 */
export function* rowFacts(
  rows: readonly Row[],
  headings: readonly string[],
  set: ColumnSet,
  codeColumn: number | null,
  ask: Ask,
  ledger: Ledger,
): Work<RowFacts[]> {
  const noCase = yield* mapped(rows, (row) => isNoCase(row, headings, set, codeColumn, ledger));
  const kept = rows.filter((_, index) => !noCase[index]);
  const surgeon = set.own('surgeon');
  const role = surgeon
    ? surgeonRoles(
        kept.map((row) => ({ row: row.row, name: cellOf(row, surgeon) })),
        ask,
      )
    : () => 'me' as const;
  const codeOf = codes(kept, set, codeColumn, ask);
  const facts = yield* mapped(kept, (row): RowFacts | null => {
    const whose = role(cellOf(row, surgeon));
    if (whose === 'leave') {
      ledger.refuseRow(
        row.row,
        surgeon?.heading ?? null,
        null,
        'A row of another surgeon, left out. Answer "Who is …" to take it as reference.',
      );
      return null;
    }
    const code = codeColumn === null ? `row ${row.row}` : codeOf(row);
    if (code === '') {
      ledger.refuseRow(
        row.row,
        headings[codeColumn ?? 0] ?? null,
        '',
        'This row has no case. Write the code of the case, or leave the row out.',
      );
      return null;
    }
    return { row, role: whose, code, list: cellOf(row, set.own('list')), date: cellOf(row, set.own('date')) };
  });
  return facts.filter((one) => one !== null);
}

function isNoCase(
  row: Row,
  headings: readonly string[],
  set: ColumnSet,
  codeColumn: number | null,
  ledger: Ledger,
): boolean {
  const code = codeColumn === null ? '' : (row.cells[codeColumn] ?? '');
  const first = row.cells.find((cell) => cell !== '') ?? '';
  const named = [code, first, cellOf(row, set.own('step'))].find((cell) => SUMMARY.test(plainWords(cell)));
  if (named !== undefined) {
    ledger.refuseRow(row.row, null, named, `This row is named "${named}" and is no case; it is left out.`);
    return true;
  }
  if (row.cells.length > 1 && row.cells.every((cell, index) => cell === (headings[index] ?? ''))) {
    ledger.refuseRow(row.row, null, null, 'This row repeats the headings; it is left out.');
    return true;
  }
  return false;
}

/** Merged cells leave the code in the first row of a case only. */
function codes(rows: readonly Row[], set: ColumnSet, codeColumn: number | null, ask: Ask): (row: Row) => string {
  if (codeColumn === null) return () => '';
  const written = (row: Row) => row.cells[codeColumn] ?? '';
  const missing = rows.filter((row) => written(row) === '');
  if (missing.length === 0 || !set.own('step')) return written;
  const [first] = rows;
  const above = ask({
    id: 'empty-code',
    question: 'Some rows have no case. Do they belong to the case above?',
    options: [
      { value: 'above', label: 'yes, to the case above' },
      { value: 'leave', label: 'no: leave these rows out' },
    ],
    // A code in one row of several is a merged cell; a few missing among many are slips.
    guess: first && written(first) !== '' && missing.length > rows.length / 3 ? 'above' : 'leave',
    examples: missing.map((row) => ({ row: row.row, text: row.cells.filter((cell) => cell !== '').join(' · ') })),
  });
  if (above === 'leave') return written;
  const carried = new Map<Row, string>();
  let last = '';
  for (const row of rows) {
    last = written(row) || last;
    carried.set(row, last);
  }
  return (row) => carried.get(row) ?? '';
}

/** A person's heading under which people do keep codes of their own ("patient no"). */
const MAY_BE_OWN = /(^| )(id|no|nr|number|code|ref|identifier)$/;

/**
 * Asked once a file: are these codes the surgeon's own, or could they lead to a patient?
 *
 * @param personHeading heading of the column where it points to a person, else `null`.
 */
export function newCodesWanted(
  facts: readonly RowFacts[],
  personHeading: string | null | undefined,
  ask: Ask,
): boolean {
  const distinct = [...new Set(facts.map(({ code }) => code))];
  const telling = distinct.filter(codePointsToAPatient).length;
  const tooLong = distinct.some((code) => code.length > intakeThresholds.codeLength);
  if (personHeading == null && telling === 0 && !tooLong) return false;
  const mayKeep = !tooLong && (personHeading == null || (telling === 0 && MAY_BE_OWN.test(plainWords(personHeading))));
  const seems =
    personHeading == null
      ? `${telling || 1} of ${distinct.length} codes look as if they could lead to a patient.`
      : "The only column that tells cases apart looks like a patient's number or name.";
  const answer = ask({
    id: 'codes',
    question: `${seems} New codes are given and no key is kept: if you need one, write it in your own secure register now.`,
    options: [
      { value: 'new', label: 'give new codes' },
      ...(mayKeep ? [{ value: 'keep', label: 'keep them: they are my own codes and lead to nobody' }] : []),
    ],
    guess: 'new',
    mustAnswer: true,
  });
  return answer === 'new';
}
