import { type Case, type Goal, type ListRecord, type Procedure, procedureOf, type SurgeonRecord } from '../../model';
import { openGoals, type GoalStanding } from '../goals/goal-standing';

/** What a calendar may be told: three days, in words that show nothing of the record. */
export type ReminderDay = { id: string; day: string; title: string; text: string };

/** Lists of this many days say how quickly cases come. */
const LOOK_BACK = 90;
/** Two lists in one week must not promise twenty cases in the next. */
const SHORTEST_SPAN = 14;
/** The length of every window after the first. */
const FOLLOWING = 20;

/** Reminders for the goal that is most pressing among those under way: a draft and a paused one count no cases. */
export function remindersOf(record: SurgeonRecord, today: string): ReminderDay[] {
  const standing = openGoals(record).find(({ stage }) => stage !== 'draft' && stage !== 'paused') ?? null;
  const procedure = standing?.procedure ?? procedureOf(record, record.profile.procedureId);
  return reminderDays(standing, record.cases, record.lists, procedure, today);
}

/**
 * Review of the latest list (the day after today), the window's expected end, and the next look (twenty cases later),
 * estimated from the pace of the dated lists of the last 90 days. Without dated lists only the review is given.
 * @param today ISO date
 */
export function reminderDays(
  standing: Pick<GoalStanding, 'goal' | 'window'> | null,
  cases: readonly Case[],
  lists: readonly ListRecord[],
  procedure: Procedure,
  today: string,
): ReminderDay[] {
  const review = {
    id: `review-${today}`,
    day: dayAfter(today, 1),
    title: 'Review the last list',
    text: 'Go through the cases, answer the checkpoints, write two lines.',
  };
  const pace = paceOf(cases, lists, procedure, today);
  if (!standing || pace === null) return [review];
  const { goal, window } = standing;
  const wait = (count: number, perDay: number) => Math.max(1, Math.ceil(Math.max(0, count) / perDay));
  if (window.full)
    return [review, nextLook(goal, dayAfter(today, wait(FOLLOWING - window.running.length, pace.cases)))];
  const end = dayAfter(
    today,
    Math.max(
      wait(window.need.cases - window.running.length, pace.cases),
      wait(window.need.lists - window.lists, pace.lists),
    ),
  );
  return [
    review,
    {
      id: `${goal.id}-window`,
      day: end,
      title: `The next ${window.need.cases === 40 ? 'forty' : 'twenty'} should be complete`,
      text: 'Read the result when all cases of the window are reviewed.',
    },
    nextLook(goal, dayAfter(end, wait(FOLLOWING, pace.cases))),
  ];
}

const nextLook = (goal: Goal, day: string): ReminderDay => ({
  id: `${goal.id}-next-look`,
  day,
  title: 'Did it last?',
  text: 'The following twenty should be complete.',
});

/** Cases and lists a day over the dated lists of the last 90 days; `null` with fewer than two such lists. */
function paceOf(
  cases: readonly Case[],
  lists: readonly ListRecord[],
  procedure: Procedure,
  today: string,
): { cases: number; lists: number } | null {
  const recent = lists.flatMap(({ id, when }) =>
    when.kind === 'date' && when.date <= today && when.date > dayAfter(today, -LOOK_BACK)
      ? [{ id, day: when.date }]
      : [],
  );
  if (recent.length < 2) return null;
  const ids = new Set(recent.map(({ id }) => id));
  const timed = cases.filter(
    ({ listId, procedureId, leftOut, stretches }) =>
      listId !== null && ids.has(listId) && procedureId === procedure.id && leftOut === null && stretches.length > 0,
  );
  if (timed.length === 0) return null;
  const first = recent.reduce((earliest, { day }) => (day < earliest ? day : earliest), today);
  const span = Math.max(SHORTEST_SPAN, daysBetween(first, today) + 1);
  const on = new Set(timed.map(({ listId }) => listId));
  return { cases: timed.length / span, lists: on.size / span };
}

const DAY = 86_400_000;
const at = (day: string) => Date.parse(`${day}T00:00:00Z`);
const daysBetween = (from: string, to: string) => Math.round((at(to) - at(from)) / DAY);
const dayAfter = (day: string, days: number) => new Date(at(day) + days * DAY).toISOString().slice(0, 10);
