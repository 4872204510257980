import type { Case, Goal } from '../model';
import { windowOf, type GoalWindow, type Look } from '../practice';
import { procedureOf, type SurgeonRecord } from './record';

/** What a window is counted from. */
export type Windowed = Pick<SurgeonRecord, 'goals' | 'cases' | 'lists' | 'procedures' | 'profile' | 'results'>;

/** At twenty, or at forty once that was decided. */
export const lookOf = ({ decisions }: Pick<Goal, 'decisions'>): Look =>
  decisions.some(({ kind }) => kind === 'second-look') ? 'second' : 'first';

/**
 * The window of a goal as the record has it, the one read last as it was read.
 * @param cases of the record, where something was merged into them
 */
export function goalWindow(record: Windowed, goal: Goal, cases: readonly Case[] = record.cases): GoalWindow {
  const results = record.results.filter(({ goalId }) => goalId === goal.id);
  const read = results.find(({ look }) => look === 'second') ?? results[0] ?? null;
  const procedure = procedureOf(record, goal.procedureId);
  return windowOf({ ...goal, read }, cases, record.lists, procedure, lookOf(goal));
}
