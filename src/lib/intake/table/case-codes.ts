import { parted, type Steps } from '../../turns';
import type { Table } from '../headings/table';
import { plainWords } from '../labels/plain-words';
import type { Ask } from '../questions';
import { intakeThresholds } from '../thresholds';
import { weights } from '../weights';
import type { Row } from './cells';
import { codePointsToAPatient } from './people';

/** Merged cells leave the code in the first row of a case only: then it holds for the rows below, if so answered. */
export function* codeFillsDown(rows: readonly Row[], { code: { column }, set }: Table, ask: Ask): Steps<boolean> {
  if (column === null || !set.own('step')) return false;
  const missing: Row[] = [];
  for (const part of parted(rows)) {
    yield part.length * weights.row;
    for (const row of part) {
      if ((row.cells[column] ?? '') === '') missing.push(row);
    }
  }
  if (missing.length === 0) return false;
  const answer = ask({
    id: 'empty-code',
    question: 'Some rows have no case. Do they belong to the case above?',
    options: [
      { value: 'above', label: 'yes, to the case above' },
      { value: 'leave', label: 'no: leave these rows out' },
    ],
    // A code in one row of several is a merged cell; a few missing among many are slips.
    guess: missing[0] !== rows[0] && missing.length > rows.length / 3 ? 'above' : 'leave',
    examples: missing
      .slice(0, intakeThresholds.examples)
      .map((row) => ({ row: row.row, text: row.cells.filter((cell) => cell !== '').join(' · ') })),
  });
  return answer === 'above';
}

/** What stands for a code that could lead to a patient in a file that waits to be taken, with a number. */
export const STAND_IN = 'held back';
const isStandIn = (code: string): boolean => /^held back \d+$/.test(code);

/** Is this a person's heading under which people do keep codes of their own ("patient no")? */
export const mayBeOwn = (heading: string): boolean =>
  /(^| )(id|no|nr|number|code|ref|identifier)$/.test(plainWords(heading));

/**
 * Asked once a file: are these codes the surgeon's own, or could they lead to a patient?
 *
 * @param personHeading heading of the column where it points to a person, else `null`.
 */
export function* newCodesWanted(
  rows: readonly { code: string }[],
  personHeading: string | null,
  ask: Ask,
): Steps<boolean> {
  const distinct = new Set<string>();
  let [telling, tooLong, replaced] = [0, false, false];
  for (const part of parted(rows)) {
    yield part.length * weights.row;
    for (const { code } of part) {
      if (distinct.has(code)) continue;
      distinct.add(code);
      replaced ||= isStandIn(code);
      if (codePointsToAPatient(code)) telling += 1;
      tooLong ||= code.length > intakeThresholds.codeLength;
    }
  }
  if (personHeading === null && telling === 0 && !tooLong && !replaced) return false;
  const mayKeep = !tooLong && !replaced && (personHeading === null || (telling === 0 && mayBeOwn(personHeading)));
  const seems =
    personHeading === null
      ? replaced
        ? 'Codes of this file look as if they could identify a patient, so they were replaced before it was kept for this look.'
        : `${telling || 1} of ${distinct.size} codes look as if they could identify a patient.`
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
