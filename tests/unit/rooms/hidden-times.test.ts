import { describe, expect, it } from 'vitest';
import { countAgain, leaveOut } from '../../../src/lib/rooms/cases/case-change';
import { hiddenCaseIds, timesWereSeen } from '../../../src/lib/rooms/goals/hidden-times';
import { undoOf } from '../../../src/lib/rooms/cases/last-change';
import { eraseRefused, leaveOutRefused } from '../../../src/lib/rooms/cases/leave-out-rules';
import type { Case, Event, Reflection } from '../../../src/lib/model';
import { doneRows } from '../../../src/lib/rooms/after-twenty/done-cells';
import { resultKnown } from '../../../src/lib/rooms/reflect/reflect-view';
import { aGoal, aRecord, casesInLists } from '../../made-up/record';
import { recordOf, withResult } from '../../made-up/read-month';
import { plainReflection, aTear } from '../../made-up/plain';

const running = (more: number, goal = aGoal(40)) => aRecord({ ...casesInLists(40 + more, 5), goals: [goal] });
const event = (stepId: string | null): Event => aTear(stepId);

const aNote = (goalId: string): Reflection => ({
  id: 'reflection-1',
  at: '2026-06-01T10:00:00.000Z',
  caseIds: [],
  goalId,
  stepId: null,
  ...plainReflection(),
});

describe('times of a running window', () => {
  it('are hidden for the cases of the window alone', () => {
    expect([...hiddenCaseIds(running(13))]).toEqual(Array.from({ length: 13 }, (_, index) => `case-${41 + index}`));
  });

  it('stay hidden at twenty until the checkpoints are answered or the result is read', () => {
    const record = running(20);
    const ids = record.cases.slice(40).map(({ id }) => id);
    expect([...hiddenCaseIds(record)]).toEqual(ids);
    const answers = (of: readonly string[]) =>
      of.map((caseId) => ({ caseId, checkpointId: 'regrasp', answer: 'done' as const }));
    const note = (of: readonly string[], goalId = 'goal-1') => ({
      ...aNote(goalId),
      caseIds: [...of],
      answers: answers(of),
    });
    expect(hiddenCaseIds({ ...record, reflections: [note(ids.slice(1))] }).size).toBe(20);
    expect(hiddenCaseIds({ ...record, reflections: [note(ids, 'goal-2')] }).size).toBe(20);
    expect(hiddenCaseIds({ ...record, reflections: [note(ids)] }).size).toBe(0);
    const without = aGoal(40, { checkpoints: [] });
    expect(hiddenCaseIds(running(20, without)).size).toBe(0);
    // A pause for safety shows its numbers below.
    const cases = record.cases.map((one) => (one.id === ids[3] ? { ...one, events: [event('cortex')] } : one));
    expect(hiddenCaseIds({ ...record, cases }).size).toBe(0);
  });

  it('are in sight once the result is read, and what is answered then is marked', () => {
    const full = recordOf(60, {}, { checkpoints: aGoal(40).checkpoints });
    const record = withResult(full);
    const [goal] = record.goals;
    expect(hiddenCaseIds(full).size).toBe(20);
    expect(hiddenCaseIds(record).size).toBe(0);
    expect(resultKnown(full, goal!, ['case-41'])).toBe(false);
    expect(resultKnown(record, goal!, ['case-41'])).toBe(true);
    expect(resultKnown(record, goal!, ['case-61'])).toBe(false);
    const note = {
      ...aNote('goal-1'),
      caseIds: ['case-41'],
      answers: [{ caseId: 'case-41', checkpointId: goal!.checkpoints[0]!.id, answer: 'done' as const }],
      beforeLengths: false,
      resultKnown: true as const,
    };
    const [row] = doneRows(goal!, record.cases.slice(40), [note], record.procedures[0]!);
    expect(row?.words).toContain('1 answered after the result was known');
    expect(row?.words).not.toContain('lengths');
  });

  it('stay hidden at twenty cases over too few lists', () => {
    const { cases, lists } = casesInLists(60, 10);
    expect(hiddenCaseIds(aRecord({ cases, lists, goals: [aGoal(40)] })).size).toBe(20);
  });

  it('are shown when the surgeon asked for them, which stands on the goal', () => {
    expect(hiddenCaseIds(running(13, aGoal(40, { timesShown: ['2026-06-01T10:00:00.000Z'] }))).size).toBe(0);
  });

  it('stay hidden while the goal is paused, and are not hidden for a draft or a closed goal', () => {
    const of = (state: 'paused' | 'draft' | 'closed') => hiddenCaseIds(running(13, aGoal(40, { state }))).size;
    expect([of('paused'), of('draft'), of('closed')]).toEqual([13, 0, 0]);
  });

  it('count as seen where they are stored and in sight, and as not seen in a running window or without times', () => {
    const record = running(13);
    const hidden = hiddenCaseIds(record);
    const [first, , last] = [record.cases[0], null, record.cases.at(-1)];
    expect(first && timesWereSeen(first, hidden)).toBe(true);
    expect(last && timesWereSeen(last, hidden)).toBe(false);
    expect(first && timesWereSeen({ ...first, stretches: [] }, hidden)).toBe(false);
  });
});

describe('a case of a running window that was left out for a while', () => {
  const NOW = '2026-11-25T08:00:00.000Z';
  const record = running(13);
  const one = record.cases.at(-1)!;
  const withCase = (changed: Case) => ({
    ...record,
    cases: record.cases.map((each) => (each.id === changed.id ? changed : each)),
  });
  const seen = (changed: Case) => timesWereSeen(changed, hiddenCaseIds(withCase(changed)));
  const leave = (changed: Case) => leaveOut(changed, 'timing-unreliable', seen(changed), NOW);

  it('was left out unseen the first time, and seen the second', () => {
    const first = leave(one);
    expect(first).toMatchObject({ case: { leftOut: { timesSeen: false } }, what: expect.stringContaining('not seen') });
    const counted = countAgain(first.case)!.case;
    expect(hiddenCaseIds(withCase(counted)).has(one.id)).toBe(true);
    expect(leave(counted)).toMatchObject({
      case: { leftOut: { timesSeen: true } },
      what: expect.stringContaining('had been seen'),
    });
  });

  it('stays seen where the leaving out, or the counting again, was undone', () => {
    const undone = (before: Case, after: Case) => {
      const undo = undoOf({ cases: [{ version: after.version, before }] }, withCase(after), seen, NOW);
      if (undo?.kind !== 'offered') throw new Error('nothing is offered');
      return undo.back[0]!.case;
    };
    const out = leave(one).case;
    const back = undone(one, out);
    expect(back.leftOut).toBeNull();
    expect(leave(back).case.leftOut?.timesSeen).toBe(true);
    const outAgain = undone(out, countAgain(out)!.case);
    expect(outAgain.leftOut?.timesSeen).toBe(true);
    expect(leave(countAgain(outAgain)!.case).case.leftOut?.timesSeen).toBe(true);
  });

  it('is marked late where a fact of its eye changes, though its times are hidden once more', () => {
    const counted = countAgain(leave(one).case)!.case;
    expect(seen(counted)).toBe(true);
    expect(seen(one)).toBe(false);
  });

  it('has nothing to be seen in it where it has no times', () => {
    const counted = countAgain(leave({ ...one, stretches: [] }).case)!.case;
    expect(counted.timesSeenWhileLeftOut).toBeUndefined();
  });
});

describe('erasing a case', () => {
  it('waits until a serious event of it was looked at', () => {
    const record = aRecord(casesInLists(41, 5));
    const [one] = record.cases;
    if (!one) throw new Error('no case');
    const reviewed = { ...event(null), reviewed: { at: '2026-03-01T08:00:00.000Z', text: 'A wider opening.' } };
    expect(eraseRefused({ ...one, events: [event(null)] }, record)).toEqual({ code: 'review-first', case: one.code });
    expect(eraseRefused({ ...one, events: [reviewed] }, record)).toBeNull();
    expect(eraseRefused({ ...one, events: [{ ...event(null), nearMiss: true }] }, record)).toBeNull();
    expect(eraseRefused({ ...one, events: null }, record)).toBeNull();
  });

  it('waits while a result is still to be read that a reviewed event of it bears on', () => {
    const reviewed = { ...event(null), reviewed: { at: '2026-03-01T08:00:00.000Z', text: 'A wider opening.' } };
    const asked = (caseId: string, over: Parameters<typeof aGoal>[1] = {}) => {
      const record = running(13, aGoal(40, over));
      const one = record.cases.find(({ id }) => id === caseId);
      return one ? eraseRefused({ ...one, events: [reviewed] }, record) : 'no case';
    };
    expect(asked('case-45')).toMatchObject({ code: 'result-first' });
    expect(asked('case-3')).toBeNull();
    expect(asked('case-45', { state: 'closed' })).toBeNull();
  });
});

describe('leaving a case out', () => {
  const inWindow = (more: number) => {
    const record = running(more);
    const one = record.cases.at(-1);
    if (!one) throw new Error('no case');
    return { record, one };
  };

  it('is possible while the window runs, for a reason from the list', () => {
    const { record, one } = inWindow(13);
    expect(leaveOutRefused(one, 'timing-unreliable', record)).toBeNull();
  });

  it('is not possible once the window is full', () => {
    const { record, one } = inWindow(20);
    expect(leaveOutRefused(one, 'timing-unreliable', record)).toBe('window-full');
    expect(leaveOutRefused({ ...one, id: 'case-1' }, 'timing-unreliable', record)).toBeNull();
  });

  it('is not possible because of an event, nor for an unnamed reason beside one', () => {
    const { record, one } = inWindow(13);
    const of = (reason: 'complication-outside-the-step' | 'other' | 'recording-incomplete', stepId: string | null) =>
      leaveOutRefused({ ...one, events: [event(stepId)] }, reason, record);
    expect(of('complication-outside-the-step', 'capsulorhexis')).toBe('event-of-step');
    expect(of('complication-outside-the-step', null)).toBe('event-of-step');
    expect(of('complication-outside-the-step', 'cortex')).toBeNull();
    expect(of('other', 'cortex')).toBe('event-needs-a-reason');
    expect(of('recording-incomplete', 'capsulorhexis')).toBeNull();
  });
});
