import { parseDuration } from '../../intake';
import type { Case, Procedure, Stretch } from '../../model';
import { textOf, type FieldError, type Fields } from './fields';

/** Empty rows offered under the stretches there are. */
export const SPARE_ROWS = 3;

const KINDS = ['step', 'waiting', 'protected'] as const;
export const kindOptions = [
  { value: 'step', label: 'step' },
  { value: 'waiting', label: 'waiting' },
  { value: 'protected', label: 'protected part' },
] as const;

/** The fields of one row. Numbers are written with a point and without rounding: what was stored comes back as it was. */
export type StretchRow = { step: string; kind: string; from: string; to: string; length: string; reason: string };

export const stretchName = (index: number, field: keyof StretchRow) => `stretch-${index}-${field}`;

export const emptyRow: StretchRow = { step: '', kind: 'step', from: '', to: '', length: '', reason: '' };

export function stretchRow({ stepId, kind, start, end, seconds, reason }: Stretch): StretchRow {
  const clocked = start !== null && end !== null;
  return {
    step: stepId ?? '',
    kind,
    from: clocked ? String(start) : '',
    to: clocked ? String(end) : '',
    length: clocked ? '' : String(seconds),
    reason: reason ?? '',
  };
}

/** Answers to "why" for waiting and "which" for protected parts, in one select: a protected part names itself. */
export function reasonOptions(procedure: Procedure): { value: string; label: string }[] {
  return [
    ...procedure.waitingReasons.map(({ id, label }) => ({ value: id, label })),
    ...procedure.steps.flatMap(({ protectedParts }) => protectedParts.map(({ id, label }) => ({ value: id, label }))),
  ];
}

/** Rows as sent, for refilling a form with what was typed. */
export function sentRows(fields: Fields): StretchRow[] {
  const count = Number(textOf(fields, 'stretches'));
  if (!Number.isInteger(count) || count < 0 || count > 500) return [];
  const at = (index: number, field: keyof StretchRow) => textOf(fields, stretchName(index, field));
  return Array.from({ length: count }, (_, index) => ({
    step: at(index, 'step'),
    kind: at(index, 'kind'),
    from: at(index, 'from'),
    to: at(index, 'to'),
    length: at(index, 'length'),
    reason: at(index, 'reason'),
  }));
}

/**
 * Stretches as edited: from and to, or a length alone. A row with its times cleared is removed.
 * @returns the stretches, and an error a field for what cannot be read.
 */
export function stretchesFromForm(
  fields: Fields,
  procedure: Procedure,
): { stretches: Case['stretches']; errors: FieldError[] } {
  const errors: FieldError[] = [];
  const stretches = sentRows(fields).flatMap((row, index): Stretch[] => {
    if (row.from === '' && row.to === '' && row.length === '') return [];
    const refuse = (field: keyof StretchRow, message: string): Stretch[] => {
      errors.push({ field: stretchName(index, field), message: `Row ${index + 1}: ${message}` });
      return [];
    };
    const kind = KINDS.find((each) => each === row.kind) ?? 'step';
    const stepId = row.step === '' ? null : row.step;
    if (stepId === null && kind !== 'waiting') return refuse('step', 'choose the step.');
    if (stepId !== null && !procedure.steps.some(({ id }) => id === stepId))
      return refuse('step', 'this procedure has no such step.');
    const reason = kind === 'step' || row.reason === '' ? null : row.reason;

    if (row.from === '' && row.to === '') {
      const read = parseDuration(row.length);
      return 'problem' in read
        ? refuse('length', read.problem)
        : [{ stepId, start: null, end: null, seconds: read.seconds, kind, reason }];
    }
    const from = parseDuration(row.from, { as: 'reading' });
    if ('problem' in from) return refuse('from', from.problem);
    const to = parseDuration(row.to, { as: 'reading' });
    if ('problem' in to) return refuse('to', to.problem);
    const seconds = Math.round((to.seconds - from.seconds) * 1000) / 1000;
    if (seconds <= 0)
      return refuse('to', `it ends at ${row.to}, before it starts (${row.from}). Check the two readings.`);
    if (seconds > 7200) return refuse('to', 'it is longer than two hours. Check the two readings.');
    return [{ stepId, start: from.seconds, end: to.seconds, seconds, kind, reason }];
  });
  return { stretches, errors };
}
