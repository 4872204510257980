import { isPlainWord } from '../../persons';
import { parted, type Steps } from '../../turns';
import { CALLED_ME } from '../cases/surgeons';
import { plainWords } from '../labels/plain-words';
import { mayBeOwn } from '../table/case-codes';
import type { Row } from '../table/cells';
import { codePointsToAPatient, headingPointsToAPerson, textPointsToAPerson } from '../table/people';
import { intakeThresholds } from '../thresholds';
import { weights } from '../weights';

/** What the surgeon said of the codes: that they identify nobody; which are in the record, looked at before. */
export type SaidOfCodes = { ownCodes: boolean; known: ReadonlySet<string> };

/** By which codes of cases could lead to patients. */
export type TellingCodes = 'heading' | 'look';

/** Could the codes of this column lead to patients? */
export function* codesTell(
  rows: readonly Row[],
  index: number,
  heading: string,
  { ownCodes, known }: SaidOfCodes,
): Steps<TellingCodes | null> {
  const person = headingPointsToAPerson(heading);
  if (person && !mayBeOwn(heading)) return 'heading';
  if (ownCodes && !person) return null;
  const seen = new Set<string>();
  for (const part of parted(rows)) {
    yield part.length * weights.row;
    for (const { cells } of part) {
      const code = cells[index] ?? '';
      if (seen.has(code)) continue;
      seen.add(code);
      if ((codePointsToAPatient(code) && !known.has(code)) || code.length > intakeThresholds.codeLength)
        return person ? 'heading' : 'look';
    }
  }
  return null;
}

/** A role, an initial, a number or the surgeon's own word: nobody is named by it. */
export const namesNobody = (name: string): boolean =>
  CALLED_ME.has(plainWords(name)) ||
  /^(\p{L}|\d{1,3}|R\d{1,3})$/u.test(name) ||
  name.split(/[\s/,.-]+/).every((word) => word === '' || isPlainWord(word));

/** What of the cells of a column looks like a person. */
export function* tellingCells(rows: readonly Row[], index: number): Steps<Set<string>> {
  const [seen, telling] = [new Set<string>(), new Set<string>()];
  for (const { cells } of rows) {
    const cell = cells[index] ?? '';
    if (seen.has(cell)) continue;
    yield weights.name;
    seen.add(cell);
    if (pointsToAPerson(cell)) telling.add(cell);
  }
  return telling;
}

export const distinctIn = (rows: readonly Row[], index: number): number =>
  new Set(rows.map(({ cells }) => cells[index] ?? '')).size;

export const pointsToAPerson = (cell: string): boolean => codePointsToAPatient(cell) || textPointsToAPerson(cell);
