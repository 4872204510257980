import type { Procedure } from '../model';
import { downstreamOf } from '../safety';
import { practiceThresholds as set } from './thresholds';

/**
 * Which of these steps may stand for the rest of the operation beside the practised one, in their order. Never a step
 * itself under a goal in these cases, nor a part or the whole of the practised step. Steps downstream of it go,
 * nearest first, while at least three others remain: its change may be what changed them.
 * @param usable whether a step is timed often enough to count among the three
 */
export function restStepsOf(
  procedure: Procedure,
  stepIds: readonly string[],
  stepId: string,
  options: { underGoal?: readonly string[]; usable?: (stepId: string) => boolean } = {},
): string[] {
  const mergesOf = (id: string) => procedure.steps.find((step) => step.id === id)?.mergeOf ?? [];
  const usable = options.usable ?? (() => true);
  const rest = stepIds.filter(
    (id) =>
      id !== stepId &&
      usable(id) &&
      !(options.underGoal ?? []).includes(id) &&
      !mergesOf(stepId).includes(id) &&
      !mergesOf(id).includes(stepId),
  );
  for (const downstream of downstreamOf(procedure, stepId)) {
    if (rest.length <= set.otherSteps) break;
    const at = rest.indexOf(downstream);
    if (at >= 0) rest.splice(at, 1);
  }
  return rest;
}
