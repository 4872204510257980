import { leftRowsText, ROWS_LEFT, rowsLeft, type AuditReading } from '../../intake';
import { keepsNew, knownField, whoseIsOpen } from './import-plan';
import { textOf, textsOf, type Fields } from '../forms/fields';

type Choices = Readonly<Record<string, string>>;

const AGREED = 'agreed';
/** Answers of the preview that intake knows nothing of. */
const OURS = ['whose', 'referenceLabel', 'known', AGREED, 'code'] as const;

/** Longest answer kept: a label of a reference set, a code. */
const MOST = 60;

/** What the page shows as chosen now. */
function shownNow(name: string, reading: AuditReading, choices: Choices): string | undefined {
  const question = reading.questions.find(({ id }) => id === name);
  if (question) return question.answer;
  const mapping = reading.mapping.find(({ key }) => key === name);
  if (mapping) return mapping.value;
  const known = reading.known.find(({ caseId }) => knownField(caseId) === name);
  if (known) return keepsNew(choices, known) ? 'new' : 'old';
  if (name === 'whose') return choices['whose'] ?? (whoseIsOpen(reading) ? '' : 'me');
  return OURS.some((each) => each === name) ? (choices[name] ?? '') : undefined;
}

/**
 * The answers of the preview as sent. A heading or label left as it was understood does not become a fixed choice, so
 * that another answer can still change how it is read; a question on the page counts as answered once it was sent.
 *
 * @returns `changed`: something else would be taken than the page had shown, so it must be shown again first.
 */
export function choicesFromForm(
  fields: Fields,
  reading: AuditReading,
  before: Choices,
): { choices: Record<string, string>; changed: boolean } {
  const choices: Record<string, string> = { ...before };
  let changed = false;
  for (const name of Object.keys(fields)) {
    const now = shownNow(name, reading, before);
    if (now === undefined) continue;
    const sent = textOf(fields, name).slice(0, MOST);
    const asked = reading.questions.find(({ id }) => id === name);
    if (sent !== now || (asked?.mustAnswer && !asked.answered)) changed = true;
    if (sent !== now || asked) choices[name] = sent;
  }
  // Rows on the page with their ticks; rows on no page keep what was said of them.
  const left = rowsLeft(before[ROWS_LEFT] ?? '');
  const ticked = new Set(textsOf(fields, 'row-taken'));
  for (const row of textsOf(fields, 'row-shown')) {
    if (!/^[1-9]\d{0,6}$/.test(row)) continue;
    if (ticked.has(row)) left.delete(Number(row));
    else left.add(Number(row));
  }
  const rows = leftRowsText(left);
  if (rows !== (before[ROWS_LEFT] ?? '')) {
    changed = true;
    choices[ROWS_LEFT] = rows;
  }
  // An unticked box is not sent at all.
  if (before['whose'] === 'reference' && textOf(fields, 'whose') === 'reference') {
    const agreed = textOf(fields, AGREED) === 'yes' ? 'yes' : '';
    if (agreed !== (before[AGREED] ?? '')) changed = true;
    choices[AGREED] = agreed;
  }
  // An answer for all known cases is new each time: it clears the answers given for single ones.
  if (textOf(fields, 'known') !== '' && textOf(fields, 'known') !== (before['known'] ?? ''))
    for (const { caseId } of reading.known) delete choices[knownField(caseId)];
  return { choices, changed };
}
