import type { Case, Event, Goal, Procedure } from '../../model';
import { sameStepAs } from '../../safety';
import { eventQuestionWords } from '../../words/event-question';

type Asked = { goal: Goal; procedure: Procedure; cases: readonly Case[] };

/** Events at the step of a goal, near misses included, in cases operated since it was set. */
export function eventsAtStep({ goal, procedure, cases }: Asked): Event[] {
  const same = sameStepAs(goal.stepId, procedure);
  return cases
    .filter((one) => one.procedureId === goal.procedureId && one.sequence > goal.afterSequence)
    .flatMap(({ events }) => events ?? [])
    .filter(({ stepId }) => stepId !== null && same.has(stepId));
}

/**
 * Asked at once of a running goal with a time whose step has a new event: go on, go over to checkpoints, or pause. An event
 * written down after the last such decision asks again; `null`: nothing to ask.
 */
export function eventQuestion(asked: Asked): string | null {
  const { goal, procedure } = asked;
  if (goal.state !== 'running' || (goal.measure !== 'time' && goal.measure !== 'steadiness')) return null;
  const events = eventsAtStep(asked);
  const decidedOn = Math.max(0, ...goal.decisions.map((each) => each.eventsAtStep ?? 0));
  if (events.length <= decidedOn) return null;
  return eventQuestionWords(events.slice(decidedOn), procedure);
}
