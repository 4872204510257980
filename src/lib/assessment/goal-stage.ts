import type { Goal, StoredResult } from '../model';
import type { GoalWindow } from '../practice';
import { goalStanding, type GoalStanding } from './goal-standing';
import type { SurgeonRecord } from './record';

/** Where a goal stands in its month. */
export type GoalStage = 'paused' | 'draft' | 'window' | 'full' | 'deciding' | 'following';

export type StagedGoal = GoalStanding & { stage: GoalStage };

/**
 * The stage of a goal that is not closed; `null` for one that is. A result counts as decided once something other than
 * a pause was decided; a decision to look again at forty opens the window once more. What came first is told by the
 * order in which it was written down, never by the clock: a clock can be set back.
 */
export function stagedGoal(goal: Goal, record: SurgeonRecord): StagedGoal | null {
  if (goal.state === 'closed') return null;
  const standing = goalStanding(record, goal);
  const result = standing.stored.find(({ look }) => look === standing.look) ?? null;
  return { ...standing, stage: stageOf(goal, standing.window, result) };
}

function stageOf(goal: Goal, window: GoalWindow, result: StoredResult | null): GoalStage {
  if (goal.state === 'paused') return 'paused';
  if (goal.state === 'draft') return 'draft';
  if (result) {
    // Nothing but a pause can be decided before a result is there, so what was decided on this look is what follows its start.
    const since = goal.decisions.slice(goal.decisions.findLastIndex(({ kind }) => kind === 'second-look') + 1);
    return since.some(({ kind }) => !['pause', 'resume'].includes(kind)) ? 'following' : 'deciding';
  }
  return window.full ? 'full' : 'window';
}

/** What is most pressing first: a pause, a result to read, a decision, a plan, a window, a following twenty. */
const URGENCY: readonly GoalStage[] = ['paused', 'full', 'deciding', 'draft', 'window', 'following'];

/** The goals that are not closed, the most pressing first; among equals the one set last. */
export function openGoals(record: SurgeonRecord): StagedGoal[] {
  return record.goals
    .flatMap((goal) => stagedGoal(goal, record) ?? [])
    .reverse()
    .sort((a, b) => URGENCY.indexOf(a.stage) - URGENCY.indexOf(b.stage));
}
