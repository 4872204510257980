import type { Case } from '../../src/lib/model';
import { startGoal } from '../../src/lib/practice';
import { listsFor, operation } from './month';

/** The goal on the practised step whose window begins with the 41st of these cases. @throws where none can be set */
export function goalOn(cases: readonly Case[]) {
  const goal = startGoal({
    cases,
    lists: listsFor(cases),
    procedure: operation,
    references: [],
    stepId: 'practised',
    measure: 'time',
    chosenBy: 'own',
    seed: 1,
    engine: 'test',
    from: 41,
  });
  if (goal.kind === 'cannot') throw new Error(goal.because);
  return goal;
}
