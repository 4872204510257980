import { parseDuration } from '../../intake';
import type { Case, Procedure, Step, Stretch } from '../../model';
import { textOf, wholeOf, type FieldError, type Fields } from '../forms/fields';

/** What the second page gives: lengths a step, waiting, protected parts, how often a step was returned to. */
export type TypedTimes = Pick<Case, 'stretches' | 'returnsNoted' | 'protectedSeen'>;

/** Names of the fields of one step on the page of times. */
export const timeNames = (stepId: string) => ({
  time: `time-${stepId}`,
  waiting: `waiting-${stepId}`,
  reason: `reason-${stepId}`,
  returns: `back-${stepId}`,
});
export const keptNames = (partId: string) => ({ seen: `seen-${partId}`, time: `kept-${partId}` });

/** Steps that take new times, in order; retired ones keep theirs but are not asked. */
export const timedSteps = (procedure: Procedure): Step[] => procedure.steps.filter(({ retired }) => !retired);

/**
 * Times as typed, in any form of a duration. The time of a step is the whole stretch: its protected part and the waiting in
 * it are taken out by the step time itself, so neither may be longer than the step.
 */
export function typedTimes(fields: Fields, procedure: Procedure): { times: TypedTimes; errors: FieldError[] } {
  const errors: FieldError[] = [];
  const stretches: Stretch[] = [];
  const returnsNoted: Record<string, number> = {};
  const protectedSeen: Record<string, boolean> = {};

  const length = (name: string, what: string): number | null => {
    const text = textOf(fields, name);
    if (text === '') return null;
    const read = parseDuration(text);
    if ('seconds' in read) return read.seconds;
    errors.push({ field: name, message: `${what}: ${read.problem}` });
    return null;
  };
  const add = (stepId: string, seconds: number, kind: Stretch['kind'], reason: string | null = null) =>
    stretches.push({ stepId, start: null, end: null, seconds, kind, reason });

  for (const step of timedSteps(procedure)) {
    const names = timeNames(step.id);
    const own = length(names.time, step.label);
    const waiting = length(names.waiting, `${step.label}, waiting`);
    const back = wholeOf(fields, names.returns);
    const kept = step.protectedParts.map(({ id, label }) => ({
      id,
      seconds: length(keptNames(id).time, label),
      seen: textOf(fields, keptNames(id).seen),
    }));
    if (back === undefined)
      errors.push({ field: names.returns, message: `${step.label}, returned to: a whole number, or empty.` });

    if (own !== null) add(step.id, own, 'step');
    const reason = textOf(fields, names.reason);
    if (waiting !== null)
      add(step.id, waiting, 'waiting', procedure.waitingReasons.some(({ id }) => id === reason) ? reason : null);
    for (const part of kept) {
      if (part.seconds !== null) add(step.id, part.seconds, 'protected', part.id);
      if (part.seen === 'yes' || part.seen === 'no') protectedSeen[part.id] = part.seen === 'yes';
    }
    if (typeof back === 'number' && own !== null) returnsNoted[step.id] = back;

    const inside = (waiting ?? 0) + kept.reduce((sum, { seconds }) => sum + (seconds ?? 0), 0);
    if (own !== null && inside >= own)
      errors.push({
        field: names.time,
        message: `${step.label}: waiting and protected parts are as long as the step itself. The time of a step is the whole of it, from start to end.`,
      });
  }
  errors.push(...mergedTwice(stretches, procedure));
  if (stretches.every(({ kind }) => kind !== 'step') && errors.length === 0)
    errors.push({
      field: timeNames(timedSteps(procedure)[0]?.id ?? '').time,
      message: 'No time is typed yet. One step is enough.',
    });
  return { times: { stretches, returnsNoted, protectedSeen }, errors };
}

/** Timing two steps as one and also each by itself would count the time twice. */
function mergedTwice(stretches: readonly Stretch[], procedure: Procedure): FieldError[] {
  const timed = new Set(stretches.filter(({ kind }) => kind === 'step').map(({ stepId }) => stepId));
  return procedure.steps.flatMap((step) => {
    const parts = (step.mergeOf ?? []).filter((id) => timed.has(id));
    if (!timed.has(step.id) || parts.length === 0) return [];
    const labels = parts.map((id) => procedure.steps.find((each) => each.id === id)?.label ?? id).join(' and ');
    return [
      {
        field: timeNames(step.id).time,
        message: `${step.label} is the whole of ${labels}. Fill in one or the other, or the time counts twice.`,
      },
    ];
  });
}
