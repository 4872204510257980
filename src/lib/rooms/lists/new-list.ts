import { codeProblem } from '../cases/typed-case';
import { textOf, wholeOf, type FieldError, type Fields } from '../forms/fields';
import { labelErrors, whenFromFields } from '../forms/list-fields';
import type { When } from '../../model';

/** Rows of the longest list sheet. */
const MOST = 40;

/** Codes that follow a first one: its last number counts up, keeping its zeros; without a number one is added. */
export function codesFrom(first: string, count: number): string[] {
  const match = /^(.*?)(\d+)(\D*)$/.exec(first);
  if (!match) return Array.from({ length: count }, (_, index) => `${first}${index + 1}`);
  const [, before = '', digits = '', after = ''] = match;
  return Array.from({ length: count }, (_, index) => {
    const number = String(Number(digits) + index).padStart(digits.length, '0');
    return `${before}${number}${after}`;
  });
}

export type NewListForm = { label: string | null; when: When; procedureId: string; codes: string[] };

/** A list to be entered from its sheet: when, how many cases, the first code. */
export function newListFromForm(
  fields: Fields,
  taken: ReadonlySet<string>,
  procedureIds: readonly string[],
): { form: NewListForm | null; errors: FieldError[] } {
  const { when, errors } = whenFromFields(fields, 'when');
  errors.push(...labelErrors(textOf(fields, 'label'), 'label'));
  const count = wholeOf(fields, 'count', 1);
  const enough = typeof count === 'number' && count <= MOST;
  if (!enough) errors.push({ field: 'count', message: `Cases: a whole number from 1 to ${MOST}.` });
  const first = textOf(fields, 'first');
  const codes = first === '' ? [] : codesFrom(first, enough ? count : 1);
  const problem = first === '' ? codeProblem('', taken) : codes.map((code) => codeProblem(code, taken)).find(Boolean);
  if (problem) errors.push({ field: 'first', message: problem });
  const procedureId = procedureIds.find((id) => id === textOf(fields, 'procedure'));
  if (!procedureId) errors.push({ field: 'procedure', message: 'Choose the procedure.' });
  if (errors.length > 0 || !when || !procedureId) return { form: null, errors };
  return { form: { label: textOf(fields, 'label') || null, when, procedureId, codes }, errors };
}
