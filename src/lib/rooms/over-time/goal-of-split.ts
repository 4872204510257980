import type { Case, Procedure } from '../../model';
import { goalWindow, type Windowed } from '../goals/goal-window';

/** From this share of both on, two stretches are a goal's baseline cases and its window: a case more or less is the same question. */
const MOSTLY = 0.8;

/**
 * The goal whose baseline cases and window these two stretches are, whichever comes first; `null` where they are none's.
 * Its result has an allowance and is read once: looking at the same cases again would be a second answer.
 */
export function goalOfSplit(
  record: Windowed,
  procedure: Procedure,
  one: readonly Case[],
  other: readonly Case[],
): { id: string; stepId: string } | null {
  for (const goal of record.goals) {
    if (goal.procedureId !== procedure.id) continue;
    // The first window alone: what came after it is no part of the result, and halves of a long record hold it too.
    const { windows, running } = goalWindow(record, goal);
    const [baseline, window] = [new Set(goal.baseline.caseIds), new Set(windows[0] ?? running)];
    const are = (earlier: readonly Case[], later: readonly Case[]) =>
      mostly(earlier, baseline) && mostly(later, window);
    if (are(one, other) || are(other, one)) return { id: goal.id, stepId: goal.stepId };
  }
  return null;
}

const mostly = (cases: readonly Case[], ids: ReadonlySet<string>) =>
  cases.length > 0 && cases.filter(({ id }) => ids.has(id)).length >= MOSTLY * cases.length;
