import type { Goal } from '../../model';

/**
 * A drill that reached its pass mark, logged with the goal.
 * @param seen how many entries of it the page had shown: a tap that arrives a second time changes nothing
 */
export function drillLogged(goal: Goal, drillId: string, seen: number, now: string): Goal {
  const log = goal.drillLog ?? [];
  return log.filter((entry) => entry.drillId === drillId).length === seen
    ? { ...goal, drillLog: [...log, { drillId, at: now }] }
    : goal;
}

/** Without the entry of that moment; unchanged where it is gone already. */
export function drillUndone(goal: Goal, drillId: string, at: string): Goal {
  const log = goal.drillLog ?? [];
  const place = log.findLastIndex((entry) => entry.drillId === drillId && entry.at === at);
  return place === -1 ? goal : { ...goal, drillLog: log.filter((_, index) => index !== place) };
}
