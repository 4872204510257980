import type { Procedure } from '../../model';
import { blankOf, type Blank } from '../table/blanks';
import { cellOf, type ColumnSet } from '../headings/column-set';
import { toMilliseconds } from '../table/duration';
import { waitingReasonMatcher, type Meaning } from '../labels/labels';
import type { LabelPlan } from '../labels/label-plan';
import type { Ledger } from '../ledger';
import { nameMatcher } from '../labels/name-matcher';
import { plainWords } from '../labels/plain-words';
import type { RowFacts } from '../table/row-facts';
import { intakeThresholds } from '../thresholds';
import type { TimeReader } from '../table/time-cells';

/** The times of one row: clock readings and length, only a length, or none. */
export type RowTimes = { start: number | null; end: number | null; seconds: number } | 'none' | 'broken';

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

/** Reads start, end and length of a row; what is wrong is named, and the row is then not taken. */
export function rowTimes({ row }: RowFacts, set: ColumnSet, read: TimeReader, ledger: Ledger): RowTimes {
  const [start, end, length] = [set.own('start'), set.own('end'), set.own('seconds')];
  const written = { start: cellOf(row, start), end: cellOf(row, end), length: cellOf(row, length) };
  const clocked = start && end && isWritten(written.start, 'reading') && isWritten(written.end, 'reading');
  if (start && end && clocked) {
    const from = read(written.start, start, 'reading');
    const to = read(written.end, end, 'reading');
    if ('problem' in from) return broken(ledger, row.row, start.heading, written.start, from.problem);
    if ('problem' in to) return broken(ledger, row.row, end.heading, written.end, to.problem);
    const seconds = toMilliseconds(to.seconds - from.seconds);
    if (seconds < 0)
      return broken(
        ledger,
        row.row,
        end.heading,
        written.end,
        `The end (${written.end}) is before the start (${written.start}). Check both; perhaps they are swapped.`,
      );
    if (seconds === 0)
      return broken(
        ledger,
        row.row,
        end.heading,
        written.end,
        `Start and end are the same (${written.end}), so the stretch has no length. Check both.`,
      );
    if (seconds > intakeThresholds.longestSeconds)
      return broken(ledger, row.row, end.heading, written.end, 'From start to end is more than two hours. Check both.');
    return {
      start: from.seconds,
      end: to.seconds,
      seconds: agreedLength(row.row, seconds, written.length, length, read, ledger),
    };
  }
  if (length && isWritten(written.length, 'length')) {
    const read_ = read(written.length, length, 'length');
    if ('problem' in read_) return broken(ledger, row.row, length.heading, written.length, read_.problem);
    return { start: null, end: null, seconds: read_.seconds };
  }
  const half =
    start && isWritten(written.start, 'reading') ? end : end && isWritten(written.end, 'reading') ? start : undefined;
  return half
    ? broken(
        ledger,
        row.row,
        half.heading,
        cellOf(row, half),
        `This stretch has only one of start and end. Fill in the other.`,
      )
    : 'none';
}

/** Zero is a way of leaving a length out, but the first reading of any clock. */
const isWritten = (text: string, as: 'reading' | 'length'): boolean => {
  const blank = blankOf(text);
  return blank === null || (as === 'reading' && blank === 'zero');
};

function broken(ledger: Ledger, row: number, column: string, value: string, why: string): 'broken' {
  ledger.refuseRow(row, column, value, why);
  return 'broken';
}

function agreedLength(
  row: number,
  seconds: number,
  written: string,
  column: ReturnType<ColumnSet['own']>,
  read: TimeReader,
  ledger: Ledger,
): number {
  if (!column || blankOf(written) !== null) return seconds;
  const length = read(written, column, 'length');
  if ('seconds' in length && Math.abs(length.seconds - seconds) <= intakeThresholds.roundingSeconds)
    return length.seconds;
  ledger.query(
    row,
    column.heading,
    written,
    `The length does not fit start and end (${seconds} s); start and end are used.`,
  );
  return seconds;
}

/** Why a row without a time is not taken. */
export const whyNoTime = (blank: Blank, meaning: 'not-done' | 'not-timed'): string =>
  blank === 'empty' && meaning === 'not-timed'
    ? 'There is no time in this row; the step counts as not timed. Fill in start and end, or a length.'
    : meaning === 'not-done'
      ? 'There is no time in this row; the step counts as not done.'
      : 'There is no time in this row; the step counts as not timed.';

export type RowMeaning = { kind: 'step' | 'waiting' | 'protected'; stepIds: readonly string[]; reason: string | null };

/** What a row is: its label, its kind and its reason together. `null`: not taken, and named. */
export function rowMeanings(
  procedure: Procedure,
): (facts: RowFacts, set: ColumnSet, plan: LabelPlan | undefined, ledger: Ledger) => RowMeaning | null {
  const reasonOf = waitingReasonMatcher(procedure);
  const partOf = nameMatcher(
    procedure.steps.flatMap((step) =>
      step.protectedParts.map(({ id, label }) => ({ value: `${step.id}:${id}`, names: [id, label] })),
    ),
  );

  return ({ row }, set, plan, ledger) => {
    const refuse = (column: string | null, value: string, why: string): null => {
      ledger.refuseRow(row.row, column, value, why);
      return null;
    };
    const label = cellOf(row, set.own('step'));
    const kindText = cellOf(row, set.own('kind'));
    const said = blankOf(kindText) === null ? kindOf(kindText) : null;
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
      if (first?.kind === 'step') return { kind, stepIds, reason: null };
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
