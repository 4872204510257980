import type { Case, LeftOutReason } from '../model';

/**
 * A case with an event cannot be left out because of it: only a reason that speaks of the event is refused here;
 * safety counts every case of the span whether it is left out or not.
 */
export function mayLeaveOut(
  one: Case,
  reason: LeftOutReason,
  practisedStepId: string | null,
): { allowed: true } | { allowed: false; because: string } {
  if (reason !== 'complication-outside-the-step') return { allowed: true };
  const here = (one.events ?? []).some((event) => event.stepId === null || event.stepId === practisedStepId);
  return here
    ? {
        allowed: false,
        because:
          'The event of this case belongs to the step, or its step is not known: a case cannot be left out because of an event.',
      }
    : { allowed: true };
}
