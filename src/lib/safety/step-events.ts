import type { Case } from '../model';

/** Counts of cases: with an event tied to the step; with one tied to no step, and none to this one. */
export type StepEventTally = {
  cases: number;
  answered: number;
  withEvent: number;
  /** Answered: no event of any step. */
  withNone: number;
  /** Whether these had it at this step is not known: they bound the count from above. */
  mayBelong: number;
};

/** Events of one step in these cases. An answer is an answer, also where its event is tied to no step. */
export function stepEventTally(cases: readonly Case[], stepId: string): StepEventTally {
  const answers = cases.flatMap(({ events }) => (events ? [events] : []));
  const tied = answers.filter((events) => events.some((event) => event.stepId === stepId));
  return {
    cases: cases.length,
    answered: answers.length,
    withEvent: tied.length,
    withNone: answers.filter((events) => events.length === 0).length,
    mayBelong: answers.filter((events) => !tied.includes(events) && events.some((event) => event.stepId === null))
      .length,
  };
}
