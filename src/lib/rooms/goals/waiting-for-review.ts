import type { Goal, SurgeonRecord } from '../../model';
import { goalWindow, type Recorded } from './goal-window';
import { unanswered } from './hidden-times';
import { openGoals } from './goal-standing';

/**
 * Counted cases of a goal whose checkpoints are not answered yet, in order of time: the one count of what waits for review.
 * Nothing waits while a plan is a draft.
 */
export const waitingForReview = (record: Recorded, goal: Goal): string[] =>
  goal.state === 'draft' ? [] : unanswered(record.reflections, goal, goalWindow(record, goal).counted);

/** The goal a new note is about: of those under way the one that Now speaks of. */
export const goalOfReview = (record: SurgeonRecord): Goal | null =>
  openGoals(record).find(({ stage }) => stage !== 'draft')?.goal ?? null;

/** What waits for review of that goal. */
export function waitingCases(record: SurgeonRecord): string[] {
  const goal = goalOfReview(record);
  return goal ? waitingForReview(record, goal) : [];
}
