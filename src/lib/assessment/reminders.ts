import type { Case, Goal, ListRecord, Procedure } from '../model';
import { windowOf } from '../practice';

/** What a calendar may be told: three days, in words that show nothing of the record. */
export type ReminderDay = { id: string; day: string; title: string; text: string };

/**
 * Review of the latest list (the day after today), the window's expected end, and the next look (twenty cases later),
 * reckoned from the pace of the dated lists of the last 90 days. Without dated lists only the review is given.
 * @param today ISO date
 */
export function reminderDays(
  goal: Goal | null,
  cases: readonly Case[],
  lists: readonly ListRecord[],
  procedure: Procedure,
  today: string,
): ReminderDay[] {
  const review = {
    id: `review-${today}`,
    day: dayAfter(today, 1),
    title: 'Review the last list',
    text: 'Watch, answer the checkpoints, write two lines.',
  };
  const perDay = pace(cases, lists, today);
  if (!goal || perDay === null) return [review];
  const window = windowOf(goal, cases, lists, procedure);
  const daysFor = (count: number) => Math.max(1, Math.ceil(count / perDay));
  const left = Math.max(0, window.need.cases - window.running.length);
  const end = dayAfter(today, daysFor(left));
  return [
    review,
    ...(window.full
      ? []
      : [
          {
            id: `${goal.id}-window`,
            day: end,
            title: 'The twenty should be full',
            text: 'Read the result when all cases of the window are reviewed.',
          },
        ]),
    {
      id: `${goal.id}-next-look`,
      day: dayAfter(end, daysFor(20)),
      title: 'Did it last?',
      text: 'The following twenty should be full.',
    },
  ];
}

/** Counted cases a day over the dated lists of the last 90 days; `null` with fewer than two such lists. */
function pace(cases: readonly Case[], lists: readonly ListRecord[], today: string): number | null {
  const recent = lists.filter(
    (list) => list.when.kind === 'date' && list.when.date <= today && list.when.date > dayAfter(today, -90),
  );
  if (recent.length < 2) return null;
  const ids = new Set(recent.map((list) => list.id));
  const timed = cases.filter(
    (each) => each.listId !== null && ids.has(each.listId) && each.stretches.length > 0,
  ).length;
  return timed > 0 ? timed / 90 : null;
}

const dayAfter = (day: string, days: number) =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
