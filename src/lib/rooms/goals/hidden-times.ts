import type { Goal } from '../../model';
import { goalWindow, type Windowed } from './goal-standing';

/** A goal whose window runs, and the cases of it whose times are kept from view. */
export type HiddenTimes = { goalId: string; caseIds: readonly string[] };

/** Does this goal keep its cases' times from view? A paused goal does: a pause ends nothing. */
const hides = (goal: Goal): boolean =>
  (goal.state === 'running' || goal.state === 'paused') && goal.timesShown.length === 0;

/**
 * Cases whose times are not shown, because they belong to a window that is not full: knowing half a window makes the
 * other half. The surgeon may ask to see them, which is noted on the goal and lifts this.
 */
export function hiddenTimes(record: Windowed): HiddenTimes[] {
  return record.goals.filter(hides).flatMap((goal) => {
    const window = goalWindow(record, goal);
    return window.full ? [] : [{ goalId: goal.id, caseIds: window.running }];
  });
}

/** The same as one set of case ids. */
export function hiddenCaseIds(record: Windowed): Set<string> {
  return new Set(hiddenTimes(record).flatMap(({ caseIds }) => caseIds));
}

/**
 * Have the times of this case been in sight of the surgeon? Honest by construction: nobody is asked. What was in sight
 * while the case was left out is not unseen by hiding it again.
 */
export const timesWereSeen = (
  one: { id: string; stretches: readonly unknown[]; timesSeenWhileLeftOut?: true | undefined },
  hidden: ReadonlySet<string>,
): boolean => one.stretches.length > 0 && (one.timesSeenWhileLeftOut === true || !hidden.has(one.id));
