import type { Case, LeftOutReason } from '../model';

/**
 * A case with an event cannot be left out because of it: only a reason that speaks of the event is refused here;
 * safety counts every case of the span whether it is left out or not.
 *
 * @returns `event-of-step`: an event belongs to the step, or it is not known to which; `null`: it may be left out
 */
export function leavesOutAnEvent(
  one: Case,
  reason: LeftOutReason,
  practisedStepId: string | null,
): 'event-of-step' | null {
  if (reason !== 'complication-outside-the-step') return null;
  const here = (one.events ?? []).some((event) => event.stepId === null || event.stepId === practisedStepId);
  return here ? 'event-of-step' : null;
}
