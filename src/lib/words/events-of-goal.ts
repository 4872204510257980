import { capital, inSentence } from '../format';
import type { Event, Procedure } from '../model';
import type { GoalEvent } from '../safety';

/** "posterior capsule tear at cortex aspiration, serious, reviewed" */
export function namedEvent(event: Event, procedure: Procedure): string {
  const kind = procedure.eventKinds.find(({ id }) => id === event.kind)?.label ?? event.kind;
  const step = procedure.steps.find(({ id }) => id === event.stepId)?.label;
  return [
    inSentence(kind) + (step ? ` at ${inSentence(step)}` : event.stepId ? '' : ', tied to no step'),
    ...(event.nearMiss ? ['near miss'] : event.serious ? ['serious'] : []),
    ...(event.nearMiss || !event.serious ? [] : [event.reviewed ? 'reviewed' : 'waiting for review']),
  ].join(', ');
}

/** The same said once, with how many times it stands there. */
const counted = (said: readonly string[]): string =>
  [...new Set(said)]
    .map((each) => {
      const times = said.filter((other) => other === each).length;
      return times === 1 ? each : `${each} (${times} times)`;
    })
    .join('; ');

/** Each of some events by name, in one sentence; none where there are none. */
export const namedEvents = (events: readonly Event[], procedure: Procedure): string[] =>
  events.length === 0 ? [] : [`${capital(counted(events.map((event) => namedEvent(event, procedure))))}.`];

const WHERE: Record<GoalEvent['where'], string> = {
  baseline: 'among the baseline cases',
  'before-window': 'between the baseline cases and the window',
  window: 'in the window',
  'after-window': 'after the window',
  untimed: 'in an operation that was not timed',
};

/**
 * Events since the baseline cases began, at the step of a goal or one after it, by name. `step`: its name inside a sentence,
 * where more than one goal is spoken of. Nothing where none is written down: the counts say of how many that was asked.
 */
export function goalEventWords(events: readonly GoalEvent[], procedure: Procedure, step = 'this step'): string[] {
  if (events.length === 0) return [];
  const said = events.map(({ event, where }) => `${namedEvent(event, procedure)}, ${WHERE[where]}`);
  return [`Since the baseline cases began, at ${step}, one after it or tied to no step: ${counted(said)}.`];
}
