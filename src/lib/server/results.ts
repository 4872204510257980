import { ENGINE } from '../assess/engine';
import { statingGoal, type GoalState } from '../rooms/goals/goal-state';
import type { SurgeonRecord, Goal } from '../model';
import { inTurns } from './in-turns';
import { StorageError, type Store } from './storage/port';

/**
 * The goal as it stands, its result stored the first time its window is found full. A result is stored once and then
 * only read; while a written review could still end a pause there is none to store.
 */
export async function readGoal(store: Store, record: SurgeonRecord, goal: Goal, now: string): Promise<GoalState> {
  const state = await inTurns(statingGoal(record, goal));
  const { outcome, look, window, inputHash } = state;
  const windowIds = window.windows[0];
  if (!outcome || !windowIds || state.waitsForReview || goal.state === 'draft') return state;
  if (state.stored.some((each) => each.look === look)) return state;
  try {
    const stored = await store.storeResult({
      goalId: goal.id,
      look,
      storedAt: now,
      inputHash,
      baselineIds: goal.baseline.caseIds,
      windowIds,
      stepId: goal.stepId,
      seed: goal.baseline.seed,
      engine: ENGINE,
      outcome,
    });
    return { ...state, stored: [...state.stored, stored] };
  } catch (error) {
    // Two pages opened at once: the other stored it first, and that one stands.
    if (!(error instanceof StorageError)) throw error;
    const stored = (await store.results()).filter((each) => each.goalId === goal.id);
    if (stored.length === state.stored.length) throw error;
    return { ...state, stored };
  }
}
