import { describe, expect, it } from 'vitest';
import { needsLook, nowView, type Look } from '../../../src/lib/rooms/now/now-view';
import type { SurgeonRecord, Reflection, StoredResult } from '../../../src/lib/model';
import { aGoal, aRecord, casesInLists } from '../../made-up/record';
import { plainOutcome, plainReflection, aTear } from '../../made-up/plain';

const enough: Look['enough'] = { enough: true, cases: 44, lists: 9, moreCases: 0, moreLists: 0 };
const look = (kind: Look['suggestion']['kind'], head = ''): Look => ({
  enough,
  twoToWatch: true,
  suggestion: { kind },
  words: { head, lede: ['A month without a goal is a good answer.'] },
});

/** 40 baseline cases and `more` after them, in lists of five, with a running goal. */
const running = (more: number, over: Partial<SurgeonRecord> = {}) =>
  aRecord({ ...casesInLists(40 + more, 5), goals: [aGoal(40)], ...over });

const outcome = plainOutcome();
const result = (record: SurgeonRecord): StoredResult => ({
  id: 'result-1',
  goalId: 'goal-1',
  look: 'first',
  storedAt: '2026-08-01T10:00:00.000Z',
  inputHash: 'x',
  baselineIds: [],
  windowIds: record.cases.slice(40, 60).map(({ id }) => id),
  stepId: 'capsulorhexis',
  seed: 1,
  engine: 'test',
  outcome,
});
const reviewed = (caseIds: string[]): Reflection => ({
  id: 'reflection-1',
  at: '2026-06-01T10:00:00.000Z',
  caseIds,
  goalId: 'goal-1',
  stepId: 'capsulorhexis',
  ...plainReflection(),
  answers: caseIds.map((caseId) => ({ caseId, checkpointId: 'regrasp', answer: 'done' })),
});

describe('Now: one sentence, one action', () => {
  it('empty: bring in times', () => {
    const view = nowView(aRecord(), null);
    expect(view).toMatchObject({ state: 'empty', head: 'Nothing here yet.', action: { href: '/cases/bring-in' } });
  });

  it('not enough: how many more are needed', () => {
    const record = aRecord(casesInLists(9, 5));
    expect(needsLook(record)).toBe(true);
    const view = nowView(record, {
      twoToWatch: true,
      enough: { enough: false, cases: 9, lists: 2, moreCases: 11, moreLists: 2 },
      suggestion: { kind: 'not-enough' },
      words: { head: '', lede: [] },
    });
    expect(view.state).toBe('not-enough');
    expect(view.rest).toContain('11 more cases and 2 more lists will do');
    expect(view.action.href).toBe('/cases/bring-in');
  });

  it('facts without times: bring the times in', () => {
    const { cases, lists } = casesInLists(14, 14);
    const record = aRecord({ cases: cases.map((one) => ({ ...one, stretches: [] })), lists });
    expect(needsLook(record)).toBe(false);
    const view = nowView(record, null);
    expect(view).toMatchObject({ state: 'not-enough', head: 'No times yet.', action: { href: '/cases/bring-in' } });
    expect(view.rest).toContain('14 cases are here without times');
  });

  it('nothing stands out: a full answer', () => {
    const view = nowView(aRecord(casesInLists(44, 5)), look('nothing', 'No step stands out.'));
    expect(view).toMatchObject({ state: 'nothing', head: 'No step stands out.', action: { href: '/choose' } });
    expect(view.rest).toContain('A month without a goal is a good answer');
  });

  it('a step held back: what holds it, in the words of Choose', () => {
    const head = 'No step is suggested for time: an event was recorded at cortex aspiration, 12 cases ago.';
    expect(nowView(aRecord(casesInLists(44, 5)), look('held-back', head))).toMatchObject({ state: 'nothing', head });
  });

  it('mostly waiting: a matter for the team', () => {
    expect(nowView(aRecord(casesInLists(44, 5)), look('waiting')).rest).toContain('matter for the team');
  });

  it('choose: a step is worth a look', () => {
    const view = nowView(aRecord(casesInLists(44, 5)), look('time'));
    expect(view).toMatchObject({ state: 'choose', action: { href: '/choose', label: 'Choose a step' } });
  });

  it('draft: waits for the supervisor, with drills only', () => {
    const goal = aGoal(40, { state: 'draft', agreed: { answer: 'not-yet', why: null } });
    const view = nowView(running(0, { goals: [goal] }), null);
    expect(view).toMatchObject({ state: 'draft', head: 'Your plan for capsulorhexis waits for your supervisor.' });
    expect(view.rest).toContain('off the patient');
  });

  it('window: k of 20 over l lists, and Reflect when something waits', () => {
    const view = nowView(running(13), null);
    expect(view.state).toBe('window');
    expect(view.head).toBe('Capsulorhexis: 13 of 20 counted, over 3 of 4 lists.');
    expect(view.rest).toBe('13 cases wait for your review.');
    expect(view.action.href).toBe('/reflect');
    expect(view.also.map(({ href }) => href)).toEqual(['/before-a-list']);
  });

  it('window: says which cases came in but lie before the goal by their dates', () => {
    const { cases, lists } = casesInLists(50, 5);
    const dated = lists.map((list) => ({ ...list, when: { kind: 'date' as const, date: '2026-04-20' } }));
    const record = aRecord({ cases, lists: dated, goals: [aGoal(40)] });
    const words = '10 cases are dated before the goal was set (1 May 2026) and count for neither period';
    expect(nowView(record, null)).toMatchObject({
      head: expect.stringContaining('0 of 20'),
      rest: expect.stringContaining(words),
    });
    const one = aRecord({ cases: cases.slice(0, 41), lists: dated, goals: [aGoal(40)] });
    expect(nowView(one, null).rest).toContain('1 case is dated before');
    expect(nowView(running(10), null).rest).not.toContain('dated before');
  });

  it('window: Before a list once everything is reviewed', () => {
    const record = running(10);
    const view = nowView({ ...record, reflections: [reviewed(record.cases.slice(40).map(({ id }) => id))] }, null);
    expect(view.rest).toBe('Nothing waits for your review.');
    expect(view.action.href).toBe('/before-a-list');
  });

  it('window: not begun', () => {
    const view = nowView(running(0), null);
    expect(view.head).toBe('Capsulorhexis: 0 of 20 counted.');
  });

  it('full: answer the checkpoints first, and why; the result can be read all the same', () => {
    const view = nowView(running(20), null);
    expect(view).toMatchObject({
      state: 'full',
      head: 'The next twenty are complete.',
      action: { label: 'Reflect' },
      also: [{ label: 'Read the result' }],
    });
    expect(view.rest).toMatch(
      /^20 cases wait for your review\. Answer their checkpoints first: once the result is known/,
    );
  });

  it('full and answered: read the result', () => {
    const record = running(20);
    const all = reviewed(record.cases.slice(40).map(({ id }) => id));
    expect(nowView({ ...record, reflections: [all] }, null)).toMatchObject({
      state: 'full',
      rest: 'The result on capsulorhexis is ready to be read.',
      action: { label: 'Read the result' },
      also: [],
    });
  });

  it('deciding: a result without a decision', () => {
    const record = running(20);
    const view = nowView({ ...record, results: [result(record)] }, null);
    expect(view).toMatchObject({ state: 'deciding', action: { href: '/after-twenty/goal-1', label: 'Decide' } });
  });

  it('second look: the window opens once more, to forty', () => {
    const goals = [aGoal(40, { decisions: [{ at: '2026-08-02T10:00:00.000Z', kind: 'second-look', reason: '' }] })];
    const record = running(23, { goals });
    const view = nowView({ ...record, results: [result(record)] }, null);
    expect(view.state).toBe('window');
    expect(view.head).toContain('23 of 40 counted');
  });

  it('next twenty: counted on, and read when complete', () => {
    const goals = [aGoal(40, { decisions: [{ at: '2026-08-02T10:00:00.000Z', kind: 'keep', reason: '' }] })];
    const record = running(27, { goals });
    const view = nowView({ ...record, results: [result(record)] }, null);
    expect(view).toMatchObject({ state: 'following', head: 'Capsulorhexis: 7 of the following twenty counted.' });
    const later = running(41, { goals });
    const shorter = { ...result(later), outcome: { ...outcome, kind: 'shorter' as const } };
    const complete = nowView({ ...later, results: [shorter] }, null);
    expect(complete.head).toBe('Capsulorhexis: a following twenty is complete.');
    expect(complete.action.label).toBe('See whether it lasted');
    // Nothing lasts where nothing was found shorter.
    const none = nowView({ ...later, results: [result(later)] }, null);
    expect(none).toMatchObject({ head: 'Capsulorhexis: 1 of the following twenty counted.' });
    expect(none.action.label).not.toBe('See whether it lasted');
  });

  it('paused: with the reason', () => {
    const goals = [
      aGoal(40, {
        state: 'paused',
        decisions: [{ at: '2026-07-01T10:00:00.000Z', kind: 'pause', reason: 'two serious events at this step' }],
      }),
    ];
    const view = nowView(running(10, { goals }), null);
    expect(view).toMatchObject({ state: 'paused', head: 'The goal on capsulorhexis is paused.' });
    expect(view.rest).toBe('Two serious events at this step.');
  });

  it('safety first: a serious event not reviewed goes before everything else', () => {
    const record = running(13);
    const event = aTear('cortex');
    const cases = record.cases.map((one) => (one.id === 'case-45' ? { ...one, events: [event] } : one));
    const view = nowView({ ...record, cases }, null);
    expect(view.state).toBe('paused');
    expect(view.rest).toContain('posterior capsule tear, at cortex aspiration; case A45');
    expect(view.head).toBe('Safety first: a serious event waits for your review');
    expect(view.action).toEqual({ href: '/cases/case-45#events', label: 'Review the event' });
    expect(needsLook({ ...record, cases })).toBe(false);

    const two = cases.map((one) => (one.id === 'case-44' ? { ...one, events: [event] } : one));
    const both = nowView({ ...record, cases: two }, null);
    expect(both.head).toBe('Safety first: 2 serious events wait for your review');
    expect(both.rest).toContain('case A45; 1 more). No change in time is called a result until each has one.');
  });

  it('a near miss or a reviewed event does not', () => {
    const record = running(13);
    const cases = record.cases.map((one) => ({
      ...one,
      events: [
        { kind: 'tear', stepId: null, serious: true, nearMiss: true, noticed: 'during', reviewed: null } as const,
        aTear(null, { noticed: 'later', reviewed: { at: '2026-07-01T10:00:00.000Z', text: 'looked at' } }),
      ],
    }));
    expect(nowView({ ...record, cases }, null).state).toBe('window');
  });

  it('several goals: the most pressing first, the others a line each', () => {
    const goals = [aGoal(40), aGoal(40, { id: 'goal-2', stepId: 'cortex', state: 'draft' })];
    const view = nowView(running(13, { goals }), null);
    expect(view.state).toBe('draft');
    expect(view.others).toEqual([{ words: 'Capsulorhexis: 13 of 20 counted.', href: '/after-twenty/goal-1' }]);
  });

  it('holds no time in any state', () => {
    const record = running(13);
    const views = [
      nowView(aRecord(), null),
      nowView(record, null),
      nowView(running(20), null),
      nowView({ ...record, results: [result(record)] }, null),
      nowView(aRecord(casesInLists(44, 5)), look('time')),
      nowView(aRecord(casesInLists(9, 5)), {
        twoToWatch: true,
        enough: { enough: false, cases: 9, lists: null, moreCases: 21, moreLists: 0 },
        suggestion: { kind: 'not-enough' },
        words: { head: '', lede: [] },
      }),
    ];
    for (const view of views) expect(JSON.stringify(view)).not.toMatch(/\d\s*(s|sec|min)\b|\d:\d\d/);
  });
});
