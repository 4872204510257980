import type { Case, Goal, Baseline } from '../../model';
import type { PlanChoices } from './plan-form';
import type { PlanSource } from './plan-view';

/** A goal with everything that fixed it. Not agreed yet: a draft, which counts no case. */
export function newGoal(
  source: Pick<PlanSource, 'procedure' | 'step' | 'eyes' | 'draft' | 'chosenBy'>,
  plan: PlanChoices,
  baseline: Baseline,
  cases: readonly Case[],
  now: string,
): Omit<Goal, 'id'> {
  return {
    procedureId: source.procedure.id,
    stepId: source.step.id,
    measure: plan.measure,
    ...(source.eyes ? { eyes: source.eyes } : {}),
    checkpoints: plan.checkpoints,
    ifThen: plan.ifThen,
    watch: plan.watch,
    stopSigns: [...source.draft.stop],
    reminders: [...source.draft.reminders],
    baseline,
    windowLength: plan.windowLength,
    agreed: plan.agreed,
    chosenBy: plan.measure === 'safety' ? 'safety' : source.chosenBy,
    reason: plan.reason,
    setAt: now,
    ...fromHere(cases, source.procedure.id),
    state: plan.agreed.answer === 'not-yet' ? 'draft' : 'running',
    decisions: [],
    timesShown: [],
    invented: false,
  };
}

/** The window begins after everything recorded so far, with the next new list. */
export function fromHere(cases: readonly Case[], procedureId: string): Pick<Goal, 'afterSequence' | 'listAtStart'> {
  let latest: Case | null = null;
  for (const each of cases)
    if (each.procedureId === procedureId && (latest === null || each.sequence > latest.sequence)) latest = each;
  return { afterSequence: latest?.sequence ?? 0, listAtStart: latest?.listId ?? null };
}

/** A draft agreed with the supervisor: it runs from today on; its baseline cases stay as they were fixed. */
export function agreedGoal(goal: Goal, cases: readonly Case[], now: string): Goal {
  return {
    ...goal,
    agreed: { answer: 'yes', why: null },
    agreedAt: now,
    state: 'running',
    ...fromHere(cases, goal.procedureId),
  };
}
