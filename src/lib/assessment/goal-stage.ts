import { windowOf, type GoalWindow } from '../practice/window';
import type { Goal, StoredResult } from '../model';
import { procedureOf, type SurgeonRecord } from './record';

/** Where a goal stands in its month. */
export type GoalStage = 'paused' | 'draft' | 'window' | 'full' | 'deciding' | 'following';

export type StagedGoal = { goal: Goal; stage: GoalStage; window: GoalWindow; result: StoredResult | null };

/**
 * The stage of a goal that is not closed; `null` for one that is. A result counts as decided by the first decision made
 * after it was stored; a decision to look again at forty opens the window once more.
 */
export function stagedGoal(goal: Goal, record: SurgeonRecord): StagedGoal | null {
  if (goal.state === 'closed') return null;
  const window = windowOf(goal, record.cases, record.lists, procedureOf(record, goal.procedureId));
  const look = goal.decisions.some(({ kind }) => kind === 'second-look') ? 'second' : 'first';
  const result = record.results.find((each) => each.goalId === goal.id && each.look === look) ?? null;
  return { goal, stage: stageOf(goal, window, result), window, result };
}

function stageOf(goal: Goal, window: GoalWindow, result: StoredResult | null): GoalStage {
  if (goal.state === 'paused') return 'paused';
  if (goal.state === 'draft') return 'draft';
  if (result) {
    const decided = goal.decisions.some(({ at, kind }) => at >= result.storedAt && !['pause', 'resume'].includes(kind));
    return decided ? 'following' : 'deciding';
  }
  return window.full ? 'full' : 'window';
}

/** What is most pressing first: a pause, a result to read, a decision, a plan, a window, a following twenty. */
const URGENCY: readonly GoalStage[] = ['paused', 'full', 'deciding', 'draft', 'window', 'following'];

/** The goals that are not closed, the most pressing first; among equals the latest. */
export function openGoals(record: SurgeonRecord): StagedGoal[] {
  return record.goals
    .flatMap((goal) => stagedGoal(goal, record) ?? [])
    .sort((a, b) => URGENCY.indexOf(a.stage) - URGENCY.indexOf(b.stage) || (a.goal.setAt < b.goal.setAt ? 1 : -1));
}
