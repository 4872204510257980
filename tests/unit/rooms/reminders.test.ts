import { describe, expect, it } from 'vitest';
import { goalStanding } from '../../../src/lib/rooms/goals/goal-standing';
import { reminderDays, remindersOf } from '../../../src/lib/rooms/now/reminders';
import type { Goal, StoredResult } from '../../../src/lib/model';
import { calendarFile } from '../../../src/lib/server/calendar';
import { aCase, aGoal, aList, aRecord, smallProcedure } from '../../made-up/record';

const today = '2026-11-25';
const dayBefore = (days: number) => new Date(Date.parse(today) - days * 86_400_000).toISOString().slice(0, 10);

/** Lists of five cases a week apart, the last one yesterday; cases numbered in order. */
function weekly(count: number) {
  const lists = Array.from({ length: count }, (_, index) =>
    aList(index + 1, { when: { kind: 'date', date: dayBefore(1 + 7 * (count - 1 - index)) } }),
  );
  const cases = Array.from({ length: 5 * count }, (_, index) =>
    aCase(index + 1, { listId: `list-${Math.floor(index / 5) + 1}`, position: (index % 5) + 1 }),
  );
  return { cases, lists };
}
const days = (goal: Goal | null, { cases, lists }: ReturnType<typeof weekly>) =>
  reminderDays(
    goal && goalStanding(aRecord({ cases, lists, goals: [goal] }), goal),
    cases,
    lists,
    smallProcedure,
    today,
  ).map(({ id, day }) => `${id} ${day}`);

describe('reminders', () => {
  it('is the review alone without a goal, without dated lists, and with one dated list', () => {
    expect(days(null, weekly(4))).toEqual(['review-2026-11-25 2026-11-26']);
    const undated = { ...weekly(4), lists: [1, 2, 3, 4].map((n) => aList(n)) };
    expect(days(aGoal(10), undated)).toEqual(['review-2026-11-25 2026-11-26']);
    expect(days(aGoal(0), weekly(1))).toHaveLength(1);
  });

  it('reckons the end of the window and the next look from the pace of the lists', () => {
    // Eight weekly lists of five: 40 cases in 51 days (the first list 50 days before today). 10 of 20 are counted.
    // The ten to come take ceil(10 / (40 / 51)) = 13 days, the two lists ceil(2 / (8 / 51)) = 13; twenty more take 26.
    expect(days(aGoal(30), weekly(8))).toEqual([
      'review-2026-11-25 2026-11-26',
      'goal-1-window 2026-12-08',
      'goal-1-next-look 2027-01-03',
    ]);
  });

  it('waits for lists where cases alone would be there earlier', () => {
    // Two lists of ten in eight days: the cases are there, the two lists that are missing take 2 / (2 / 14) = 14 days.
    const lists = [
      aList(1, { when: { kind: 'date', date: dayBefore(8) } }),
      aList(2, { when: { kind: 'date', date: dayBefore(1) } }),
    ];
    const cases = Array.from({ length: 20 }, (_, index) =>
      aCase(index + 1, { listId: index < 10 ? 'list-1' : 'list-2' }),
    );
    expect(days(aGoal(0), { cases, lists })[1]).toBe('goal-1-window 2026-12-09');
  });

  it('looks to the following twenty once the window is full', () => {
    // 40 cases in 51 days, the first 10 at the start: the window is full at 30, ten of the following are there.
    expect(days(aGoal(10), weekly(8))).toEqual(['review-2026-11-25 2026-11-26', 'goal-1-next-look 2026-12-08']);
  });

  it('stays with the window that was read: a case erased since draws no later one into it', () => {
    const { cases, lists } = weekly(8);
    const read = {
      goalId: 'goal-1',
      look: 'first',
      windowIds: cases.slice(10, 30).map(({ id }) => id),
    } as StoredResult;
    const record = aRecord({ cases, lists, goals: [aGoal(10)], results: [read] });
    const dates = (one: typeof record) => remindersOf(one, today).map(({ id, day }) => `${id} ${day}`);
    const without = (sequence: number) => ({ ...record, cases: cases.filter((each) => each.sequence !== sequence) });
    // 39 cases in 51 days, ten of the following twenty are there: ceil(10 / (39 / 51)) = 14 days.
    expect(dates(without(20))).toEqual(['review-2026-11-25 2026-11-26', 'goal-1-next-look 2026-12-09']);
    // Read or not, one erased of the following twenty is one more to come: ceil(11 / (39 / 51)) = 15 days.
    expect(dates(without(35))).toEqual(['review-2026-11-25 2026-11-26', 'goal-1-next-look 2026-12-10']);
  });

  it('counts no case of another procedure and none left out', () => {
    const { cases, lists } = weekly(8);
    const others = cases.map((one) => ({ ...one, procedureId: 'other' }));
    expect(days(aGoal(30), { cases: others, lists })).toHaveLength(1);
  });

  it('never goes past 90 days back, nor to a list that is still to come', () => {
    const old = weekly(8).lists.map((list, index) =>
      aList(index + 1, { when: { kind: 'date', date: dayBefore(100 + index) } }),
    );
    expect(days(aGoal(30), { ...weekly(8), lists: old })).toHaveLength(1);
    const coming = weekly(8).lists.map((list) => ({ ...list, when: { kind: 'date' as const, date: '2026-12-24' } }));
    expect(days(aGoal(30), { ...weekly(8), lists: coming })).toHaveLength(1);
  });

  it('leaves goals out that count no case: a draft, a paused one, a closed one', () => {
    for (const state of ['draft', 'paused', 'closed'] as const)
      expect(remindersOf(aRecord({ ...weekly(8), goals: [aGoal(30, { state })] }), today)).toHaveLength(1);
    const both = [aGoal(30, { id: 'goal-1', state: 'draft' }), aGoal(30, { id: 'goal-2' })];
    expect(remindersOf(aRecord({ ...weekly(8), goals: both }), today).map(({ id }) => id)).toContain('goal-2-window');
  });

  it('shows nothing of the record: no step, no code, no time, no number, no result', () => {
    const told = remindersOf(aRecord({ ...weekly(8), goals: [aGoal(30)] }), today);
    const words = told.map(({ title, text }) => `${title} ${text}`).join(' ');
    expect(words).not.toMatch(/\d|capsulorhexis|small operation|shorter|longer|second|minute/i);
    const file = calendarFile(told, '2026-11-25T08:00:00.000Z');
    expect(file.match(/BEGIN:VEVENT/g)).toHaveLength(3);
    expect(file.replace(/^(UID|DTSTAMP|DTSTART|DTEND|VERSION)[^\r\n]*/gm, '')).not.toMatch(/\d/);
  });
});
