import type { Procedure } from '../../model';
import { cellOf, type ColumnSet } from '../headings/column';
import type { LabelPlan } from '../labels/label-plan';
import { waitingReasonMatcher, type Meaning } from '../labels/labels';
import { nameMatcher } from '../labels/name-matcher';
import { plainWords } from '../labels/plain-words';
import type { Ledger } from '../ledger';
import { blankOf } from '../table/blanks';
import type { Row } from '../table/cells';

export type RowMeaning = { kind: 'step' | 'waiting' | 'protected'; stepIds: readonly string[]; reason: string | null };

const kindOf = nameMatcher<'step' | 'waiting' | 'protected'>(
  [
    { value: 'step', names: ['step', 'stretch', 'surgery', 'operating', 'operative', 's'] },
    { value: 'waiting', names: ['waiting', 'wait', 'gap', 'idle', 'pause', 'delay', 'w', 'interruption'] },
    {
      value: 'protected',
      names: ['protected', 'protected part', 'kept', 'protected part', 'keep', 'safety', 'check', 'k'],
    },
  ],
  { within: false },
);

/** What a row is: its label, its kind and its reason together. `null`: not taken, and named. */
export function rowMeanings(
  procedure: Procedure,
): (row: Row, set: ColumnSet, plan: LabelPlan | undefined, ledger: Ledger) => RowMeaning | null {
  const reasonOf = waitingReasonMatcher(procedure);
  const partOf = nameMatcher(
    procedure.steps.flatMap((step) =>
      step.protectedParts.map(({ id, label }) => ({ value: `${step.id}:${id}`, names: [id, label] })),
    ),
  );

  // What says no more than its step is the same in every row: made once, for there may be 300,000.
  const asStep = new Map<LabelPlan, RowMeaning>();

  return (row, set, plan, ledger) => {
    const kindText = cellOf(row, set.own('kind'));
    const said = kindText !== '' && blankOf(kindText) === null ? kindOf(kindText) : null;
    const known = plan && (said === null || said.values[0] === 'step') ? asStep.get(plan) : undefined;
    if (known) return known;
    const refuse = (column: string | null, value: string, why: string): null => {
      ledger.refuseRow(row.row, column, value, why);
      return null;
    };
    const label = cellOf(row, set.own('step'));
    if (said && (said.how === 'none' || said.how === 'unclear'))
      return refuse(
        set.own('kind')?.heading ?? null,
        kindText,
        `"${kindText}" is not one of: step, waiting, kept. Correct it.`,
      );
    const meanings = plan?.meanings ?? [];
    const [first] = meanings;
    const kind = said?.values[0] ?? first?.kind ?? 'step';
    const stepIds = meanings.flatMap((meaning) => (meaning.kind === 'waiting' ? [] : [meaning.stepId]));
    const reason = cellOf(row, set.own('reason'));
    if (kind === 'step') {
      if (first?.kind === 'step') {
        const meaning: RowMeaning = { kind, stepIds, reason: null };
        if (plan) asStep.set(plan, meaning);
        return meaning;
      }
      return refuse(set.own('step')?.heading ?? null, label, whyNoStep(label, procedure));
    }
    if (kind === 'waiting')
      return { kind, stepIds, reason: waitingReason(reason, first, reasonOf, set, row.row, ledger) };
    const part = first?.kind === 'protected' ? first.partId : protectedPart(partOf(reason).values, stepIds);
    if (part === null)
      return refuse(
        set.own('reason')?.heading ?? null,
        reason,
        `No protected part of this step is known as "${reason}". Name one of its protected parts.`,
      );
    return { kind, stepIds, reason: part };
  };
}

function waitingReason(
  text: string,
  label: Meaning | undefined,
  reasonOf: ReturnType<typeof waitingReasonMatcher>,
  set: ColumnSet,
  row: number,
  ledger: Ledger,
): string | null {
  if (blankOf(text) !== null) return label?.kind === 'waiting' ? label.reason : null;
  const found = reasonOf(text);
  if (found.values.length === 1 && found.how !== 'none') return found.values[0] ?? null;
  // The words may name a colleague: they are not kept.
  ledger.query(
    row,
    set.own('reason')?.heading ?? null,
    null,
    'This reason for waiting is not known and is taken as "other". Choose one of the reasons in Settings.',
  );
  return 'other';
}

function protectedPart(found: readonly string[], stepIds: readonly string[]): string | null {
  const fits = found
    .map((value) => value.split(':'))
    .filter(([stepId]) => stepId !== undefined && stepIds.includes(stepId));
  return fits.length === 1 ? (fits[0]?.[1] ?? null) : null;
}

const whyNoStep = (label: string, procedure: Procedure): string =>
  plainWords(label) === ''
    ? 'This row names no step. Write the step, or leave the row out.'
    : `No step of ${procedure.name.toLowerCase()} is taken for "${label}". Answer which step it is, or leave the row out.`;
