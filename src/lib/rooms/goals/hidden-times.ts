import type { Goal, Reflection } from '../../model';
import { isSerious, listsOf } from '../../safety';
import { goalWindow, lookOf, type Recorded } from './goal-window';

/** Of these cases, those whose checkpoints no note on this goal answers yet; none where no checkpoint is asked about. */
export function unanswered(
  reflections: readonly Reflection[],
  goal: Pick<Goal, 'id' | 'checkpoints'>,
  ids: readonly string[],
): string[] {
  if (goal.checkpoints.length === 0) return [];
  const answered = new Set(
    reflections
      .filter(({ goalId }) => goalId === goal.id)
      .flatMap(({ answers }) => answers.map(({ caseId }) => caseId)),
  );
  return ids.filter((id) => !answered.has(id));
}

/** A goal whose window runs, and the cases of it whose times are kept from view. */
export type HiddenTimes = { goalId: string; caseIds: readonly string[] };

/** Does this goal keep its cases' times from view? A paused goal does: a pause ends nothing. */
const hides = (goal: Goal): boolean =>
  (goal.state === 'running' || goal.state === 'paused') && goal.timesShown.length === 0;

/**
 * Cases whose times are not shown, because they belong to a window that is not full: seeing half a window
 * influences the other half. Nor are those of a full one while its checkpoints wait to be answered and its result has not been read, so that
 * no answer follows a time. The surgeon may ask to see them, which is noted on the goal and lifts this.
 */
export function hiddenTimes(record: Recorded): HiddenTimes[] {
  return record.goals.filter(hides).flatMap((goal) => {
    const window = goalWindow(record, goal);
    if (!window.full) return [{ goalId: goal.id, caseIds: window.running }];
    const [first = []] = window.windows;
    const read = record.results.some(({ goalId, look }) => goalId === goal.id && look === lookOf(goal));
    if (read || owesReview(record, first) || !waitingIn(record, goal, first)) return [];
    return [{ goalId: goal.id, caseIds: first }];
  });
}

/** A pause for safety shows its numbers, so there is nothing left to hide. */
export function owesReview({ cases, lists }: Recorded, ids: readonly string[]): boolean {
  const inWindow = new Set(ids);
  const own = cases.filter(({ id }) => inWindow.has(id));
  const events = [
    ...own.flatMap((one) => one.events ?? []),
    ...listsOf(own, lists).flatMap((list) => list.untimedEvents),
  ];
  return events.some((event) => isSerious(event) && event.reviewed === null);
}

/** Does a case among these wait for the answers to the goal's checkpoints? */
const waitingIn = (record: Recorded, goal: Goal, ids: readonly string[]): boolean =>
  unanswered(record.reflections, goal, ids).length > 0;

/** The same as one set of case ids. */
export function hiddenCaseIds(record: Recorded): Set<string> {
  return new Set(hiddenTimes(record).flatMap(({ caseIds }) => caseIds));
}

/**
 * Has the surgeon seen the times of this case? Honest by construction: nobody is asked. What was seen while the case
 * was left out does not become unseen by hiding it again.
 */
export const timesWereSeen = (
  one: { id: string; stretches: readonly unknown[]; timesSeenWhileLeftOut?: true | undefined },
  hidden: ReadonlySet<string>,
): boolean => one.stretches.length > 0 && (one.timesSeenWhileLeftOut === true || !hidden.has(one.id));
