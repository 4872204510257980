import type { Case, Goal, StoredResult } from '../model';

const CHANGED: readonly StoredResult['outcome']['kind'][] = [
  'shorter',
  'all-round',
  'steadier',
  'longer',
  'rest-longer',
];

/**
 * A new goal on a step that changed starts after the change: the sequence number of the first case of the latest
 * window of an earlier goal on the step whose result says it changed; `null` where none does.
 */
export function startsAfter(
  stepId: string,
  procedureId: string,
  goals: readonly Pick<Goal, 'id' | 'procedureId'>[],
  results: readonly Pick<StoredResult, 'goalId' | 'stepId' | 'windowIds' | 'outcome'>[],
  cases: readonly Case[],
): number | null {
  const here = new Set(goals.filter((goal) => goal.procedureId === procedureId).map((goal) => goal.id));
  const firsts = results
    .filter((result) => result.stepId === stepId && here.has(result.goalId) && CHANGED.includes(result.outcome.kind))
    .flatMap((result) => {
      const window = cases.filter((one) => result.windowIds.includes(one.id)).map((one) => one.sequence);
      return window.length > 0 ? [Math.min(...window)] : [];
    });
  return firsts.length > 0 ? Math.max(...firsts) : null;
}
