import type { Procedure, Step } from '../../../model';
import type { ProcedureUse } from './use';

/** What taking a step out does: a step the record speaks of is retired, since its timings stay; any other is deleted. */
export type TakingOut = 'retire' | 'delete';

/**
 * @param shipped the procedure as shipped, where it is one: its steps have written guidance, so they are only ever retired
 */
export function takingOut(step: Step, use: ProcedureUse, procedure: Procedure, shipped: Procedure | null): TakingOut {
  const known =
    use.timed.has(step.id) ||
    use.named.has(step.id) ||
    step.protectedParts.some(({ id }) => use.protectedParts.has(id)) ||
    procedure.steps.some(({ mergeOf }) => mergeOf?.includes(step.id)) ||
    (shipped?.steps.some(({ id }) => id === step.id) ?? false);
  return known ? 'retire' : 'delete';
}

/** Without the step where nothing rests on it, else with the step retired. Timings are never touched. */
export function withoutStep(
  procedure: Procedure,
  stepId: string,
  use: ProcedureUse,
  shipped: Procedure | null,
): Procedure {
  const step = procedure.steps.find(({ id }) => id === stepId);
  if (!step) return procedure;
  if (takingOut(step, use, procedure, shipped) === 'retire') return withStep(procedure, { ...step, retired: true });
  return {
    ...procedure,
    steps: procedure.steps
      .filter(({ id }) => id !== stepId)
      .map((other) => ({ ...other, earlier: other.earlier.filter((id) => id !== stepId) })),
  };
}

/** The retired step in use again, in its old place. */
export function withStepBack(procedure: Procedure, stepId: string): Procedure {
  const step = procedure.steps.find(({ id }) => id === stepId);
  return step ? withStep(procedure, { ...step, retired: false }) : procedure;
}

/** The step in place of the one with its id; a new one after the step `after`, or first for `null`. */
export function withStep(procedure: Procedure, step: Step, after: string | null = null): Procedure {
  if (procedure.steps.some(({ id }) => id === step.id))
    return { ...procedure, steps: procedure.steps.map((other) => (other.id === step.id ? step : other)) };
  const at = after === null ? 0 : procedure.steps.findIndex(({ id }) => id === after) + 1;
  return { ...procedure, steps: procedure.steps.toSpliced(after !== null && at === 0 ? Infinity : at, 0, step) };
}

/**
 * One place up or down in the order of the operation, past the nearest neighbour in sight.
 * @param passes true for those that are not shown, so that a move is always seen
 */
export function moved<T extends { id: string }>(
  all: readonly T[],
  id: string,
  by: 'up' | 'down',
  passes: (one: T) => boolean = () => false,
): T[] {
  const at = all.findIndex((one) => one.id === id);
  const step = by === 'up' ? -1 : 1;
  let to = at + step;
  while (all[to] && passes(all[to] as T)) to += step;
  const one = all[at];
  if (!one || !all[to]) return [...all];
  return all.toSpliced(at, 1).toSpliced(to, 0, one);
}
