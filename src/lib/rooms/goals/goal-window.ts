import { procedureOf, type Case, type Goal, type SurgeonRecord } from '../../model';
import { windowOf, type GoalWindow, type Look } from '../../practice';

/** What a window is counted from. */
export type Windowed = Pick<SurgeonRecord, 'goals' | 'cases' | 'lists' | 'procedures' | 'profile' | 'results'>;

/** The same with the notes, which tell what has been answered. */
export type Recorded = Windowed & Pick<SurgeonRecord, 'reflections'>;

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
