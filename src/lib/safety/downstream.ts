import type { Procedure, Step } from '../model';

/**
 * Steps that the given one can make longer: those that name it among their earlier steps, nearest first
 * (by how near they name it, then in the order of the operation). A change there may be this step's doing.
 */
export function downstreamOf(procedure: Procedure, stepId: string): string[] {
  const nearness = (step: Step) => step.earlier.indexOf(stepId);
  return procedure.steps
    .filter((step) => step.id !== stepId && nearness(step) >= 0)
    .map((step, order) => ({ id: step.id, near: nearness(step), order }))
    .sort((a, b) => a.near - b.near || a.order - b.order)
    .map((step) => step.id);
}
