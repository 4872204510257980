import type { SurgeonRecord } from '../../model';
import { eventsOfGoal, takeovers, type GoalEvent } from '../../safety';
import { goalEventWords, takeoverWords } from '../../words';
import { NO_CASE_LEFT } from '../../words/after-twenty';
import { safetyWords, type SafetyWords } from '../../words/safety';
import { erasedOfGoal } from '../cases/erase-words';
import type { GoalReading } from '../goals/goal-reading';

/** Safety in the span of one goal, with what was erased of it, and takeovers: an outcome beside the result. */
export function safetyOfGoal(
  state: GoalReading,
  { cases, lists }: Pick<SurgeonRecord, 'cases' | 'lists'>,
): SafetyWords & { takeovers: string | null } {
  const { head, sentences } = safetyWords(state.spanCases, cases, lists);
  const taken = takeovers(state.spanCases, state.goal.stepId);
  const none = state.spanCases.length === 0 && state.stored.length > 0;
  return {
    head: none ? NO_CASE_LEFT : head,
    sentences: [
      ...sentences,
      ...goalEventWords(eventsOf(state, { cases, lists }), state.procedure),
      ...erasedOfGoal(state, cases),
    ],
    takeovers: taken && takeoverWords(taken, 'the step'),
  };
}

/** Events at the step of a goal or downstream of it since its baseline cases began, from the record as it is. */
export const eventsOf = (
  { procedure, goal, window }: Pick<GoalReading, 'procedure' | 'goal' | 'window'>,
  { cases, lists }: Pick<SurgeonRecord, 'cases' | 'lists'>,
): GoalEvent[] =>
  eventsOfGoal({
    procedure,
    stepId: goal.stepId,
    baselineIds: goal.baseline.caseIds,
    windowIds: window.windows[0] ?? window.running,
    cases,
    lists,
  });
