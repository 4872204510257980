import type { Case, Goal, ListRecord, Procedure } from '../model';
import { windowOf } from './window';

/**
 * Steps that were themselves under a goal on time or steadiness in any of these cases: they cannot stand for the rest
 * of the operation. Drafts are not goals yet.
 */
export function stepsUnderGoal(
  goal: Pick<Goal, 'id' | 'procedureId' | 'stepId'>,
  goals: readonly Goal[],
  caseIds: readonly string[],
  record: { cases: readonly Case[]; lists: readonly ListRecord[]; procedure: Procedure },
): string[] {
  const here = new Set(caseIds);
  const steps = goals
    .filter((other) => other.id !== goal.id && other.procedureId === goal.procedureId && other.stepId !== goal.stepId)
    .filter((other) => other.state !== 'draft' && (other.measure === 'time' || other.measure === 'steadiness'))
    .filter((other) => {
      const { windows, running } = windowOf(other, record.cases, record.lists, record.procedure);
      return [...windows.slice(0, 1).flat(), ...(windows.length === 0 ? running : [])].some((id) => here.has(id));
    })
    .map((other) => other.stepId);
  return [...new Set(steps)];
}
