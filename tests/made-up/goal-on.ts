import type { Case } from '../../src/lib/model';
import { startGoal, type StartGoalInput } from '../../src/lib/practice';
import { listsFor, operation } from './month';

/** What a goal on the time of the practised step is asked with, chosen by its surgeon. */
export const goalAsked = (cases: readonly Case[], over: Partial<StartGoalInput> = {}): StartGoalInput => ({
  cases,
  lists: listsFor(cases),
  procedure: operation,
  references: [],
  stepId: 'practised',
  measure: 'time',
  chosenBy: 'own',
  seed: 1,
  engine: 'test',
  ...over,
});

/** That goal, with a window that begins with the 41st of these cases. @throws where none can be set */
export function goalOn(cases: readonly Case[], over: Partial<StartGoalInput> = {}) {
  const goal = startGoal(goalAsked(cases, { from: 41, ...over }));
  if (goal.kind === 'cannot') throw new Error(goal.why.code);
  return goal;
}
