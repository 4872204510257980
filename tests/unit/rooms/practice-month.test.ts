import { describe, expect, it } from 'vitest';
import { openGoals } from '../../../src/lib/rooms/goals/goal-standing';
import { drillLogged, drillUndone } from '../../../src/lib/rooms/now/drill-log';
import { goalView } from '../../../src/lib/rooms/plan/goal-view';
import { agreedGoal } from '../../../src/lib/rooms/plan/new-goal';
import { practiceMonth } from '../../../src/lib/rooms/now/practice-month';
import { drillsFor, monthWeekOf, type Guidance } from '../../../src/lib/rules';
import { loadGuidance } from '../../../src/lib/server/content';
import { durationIn, loggedWords, partSeenWords } from '../../../src/lib/words';
import type { Goal } from '../../../src/lib/model';
import { aGoal, aRecord, casesInLists } from '../../made-up/record';

const SET = '2026-05-01T10:00:00.000Z';
const day = (days: number, ms = 0) => new Date(Date.parse(SET) + days * 86_400_000 + ms).toISOString();

describe('the week of the month', () => {
  it.each([
    [day(0), 1, 'watch'],
    [day(7, -1), 1, 'watch'],
    [day(7), 2, 'drill'],
    [day(14, -1), 2, 'drill'],
    [day(14), 3, 'lists'],
    [day(27), 4, 'lists'],
    [day(90), 13, 'lists'],
    [day(-3), 1, 'watch'],
  ])('at %s it is week %i: %s', (now, week, part) => {
    expect(monthWeekOf({ setAt: SET }, now)).toEqual({ week, part });
  });
});

describe('a draft that was agreed later', () => {
  const draft = aGoal(40, { setAt: SET, state: 'draft', agreed: { answer: 'not-yet', why: null } });
  const agreed = agreedGoal(draft, casesInLists(40, 5).cases, day(20));

  it('keeps both days, and counts its weeks from the day it was agreed', () => {
    expect(agreed).toMatchObject({ setAt: SET, agreedAt: day(20), state: 'running' });
    expect(monthWeekOf(draft, day(20))).toEqual({ week: 3, part: 'lists' });
    expect(monthWeekOf(agreed, day(20))).toEqual({ week: 1, part: 'watch' });
    expect(monthWeekOf(agreed, day(27, -1))).toEqual({ week: 1, part: 'watch' });
    expect(monthWeekOf(agreed, day(27))).toEqual({ week: 2, part: 'drill' });
  });

  it('says so on Now and on its page', () => {
    const record = aRecord({ ...casesInLists(45, 5), goals: [agreed] });
    expect(practiceMonth(openGoals(record)[0], record, null, day(21))).toMatchObject({ week: 1, now: 'watch' });
    expect(goalView(agreed, record).lead).toBe('Set on 1 May 2026, agreed on 21 May 2026. Running.');
    expect(goalView(draft, record).lead).toMatch(/^Set on 1 May 2026\. A draft/);
  });
});

describe('the drills of a goal', () => {
  const page = loadGuidance().find(({ step }) => step === 'capsulorhexis')!;
  const ids = (checkpoints: string[], guidance: Guidance | null = page) =>
    drillsFor({ checkpoints: checkpoints.map((id) => ({ id, look: id })) }, guidance).map(({ id }) => id);

  it('begin with the one that answers most of what its checkpoints were written for', () => {
    expect(ids(['rhexis-regrasp', 'rhexis-fold'])[0]).toBe('rhexis-drill-film');
    expect(ids(['rhexis-rescue'])[0]).toBe('rhexis-drill-rescue');
  });

  it('are all of the page, in its order where nothing tells them apart', () => {
    expect(ids(['a-checkpoint-of-my-own'])).toEqual(page.drills.map(({ id }) => id));
    expect(ids(['rhexis-rescue'])).toHaveLength(page.drills.length);
  });

  it('are there for a step without a page', () => {
    expect(ids(['x'], null)).toEqual(['watch-two']);
  });
});

describe('the log of drills', () => {
  const once = drillLogged(aGoal(4), 'film', 0, day(8));

  it('takes a tap once, also where it arrives twice', () => {
    expect(once.drillLog).toEqual([{ drillId: 'film', at: day(8) }]);
    expect(drillLogged(once, 'film', 0, day(8, 5))).toBe(once);
    expect(drillLogged(once, 'film', 1, day(9)).drillLog).toHaveLength(2);
    expect(drillLogged(once, 'other', 0, day(9)).drillLog).toHaveLength(2);
  });

  it('undoes the entry that was shown, and no other', () => {
    expect(drillUndone(once, 'film', day(8)).drillLog).toEqual([]);
    expect(drillUndone(once, 'other', day(8))).toBe(once);
    expect(drillUndone(once, 'film', day(9))).toBe(once);
  });
});

describe('the practice month on Now', () => {
  const shown = (more: number, over: Partial<Goal> = {}, now = day(8)) => {
    const record = aRecord({ ...casesInLists(40 + more, 5), goals: [aGoal(40, { setAt: SET, ...over })] });
    const cases = record.cases.map((one) =>
      one.sequence > 40 && one.sequence <= 49 ? { ...one, protectedSeen: { refill: one.sequence !== 41 } } : one,
    );
    return practiceMonth(openGoals(record)[0], { ...record, cases }, null, now);
  };

  it('is there while the first window fills, and for no draft, pause, full window or closed goal', () => {
    expect(shown(5)).toMatchObject({ week: 2, now: 'drill', goalId: 'goal-1' });
    for (const state of ['draft', 'paused', 'closed'] as const) expect(shown(5, { state })).toBeNull();
    expect(shown(20)).toBeNull();
  });

  it('looks at the protected parts from ten counted cases on, and says what was not answered', () => {
    expect(shown(9, { watch: ['refill'] })?.lists).toEqual({
      lead: 'At 10 counted cases, a look at the protected parts; 9 so far.',
      parts: [],
    });
    expect(shown(10, { watch: ['refill'] })?.lists).toEqual({
      lead: 'The protected parts in the 10 cases counted so far:',
      parts: ['Chamber refilled: seen in 8 of the 9 cases answered; not answered in 1.'],
    });
    expect(shown(12)?.lists.lead).toBe('This goal watches no protected part.');
  });

  it('counts the log, marks nothing as done, and holds no duration', () => {
    const log = [
      { drillId: 'watch-two', at: day(8) },
      { drillId: 'gone-from-the-library', at: day(9) },
    ];
    expect(shown(5, { drillLog: log })?.drill).toMatchObject({ logged: 'Logged once.', seen: 1, latest: day(8) });
    // Without the quotes of JSON, one of which after a figure reads as seconds.
    const month = { ...shown(12, { drillLog: log, watch: ['refill'] }), drill: null };
    const words = JSON.stringify(month).replaceAll('"', ' ');
    expect(durationIn(words)).toBeNull();
    expect(words).not.toMatch(/well done|great|streak|in a row|due|late\b|overdue|%/i);
  });
});

describe('the words of the month', () => {
  it('count and do not judge', () => {
    expect([0, 1, 2, 3].map(loggedWords)).toEqual([
      'Not logged yet.',
      'Logged once.',
      'Logged twice.',
      'Logged 3 times.',
    ]);
    expect(partSeenWords('Refill', 10, 10, 10)).toBe('Refill: seen in 10 of 10 cases.');
    expect(partSeenWords('Refill', 0, 0, 10)).toBe('Refill: not answered in any of these 10 cases.');
  });
});
