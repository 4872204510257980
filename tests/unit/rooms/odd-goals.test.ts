import { describe, expect, it } from 'vitest';
import { afterView, type AfterView } from '../../../src/lib/rooms/after-twenty/after-view';
import { decided } from '../../../src/lib/rooms/after-twenty/decisions';
import { latestAnswers } from '../../../src/lib/rooms/after-twenty/done-cells';
import { goalWindow } from '../../../src/lib/rooms/goals/goal-window';
import { hiddenCaseIds } from '../../../src/lib/rooms/goals/hidden-times';
import { openGoals } from '../../../src/lib/rooms/goals/goal-standing';
import { goalReading, lastingOf, stepsUnderGoal } from '../../../src/lib/rooms/goals/goal-reading';
import { goalView } from '../../../src/lib/rooms/plan/goal-view';
import { noteViews } from '../../../src/lib/rooms/before-a-list/note-view';
import { nowView } from '../../../src/lib/rooms/now/now-view';
import type { SurgeonRecord, Event, Goal, Reflection, StoredResult } from '../../../src/lib/model';
import { auditOf } from '../../../src/lib/audit';
import { resultFor } from '../../../src/lib/practice';
import { goalAfter, listsFor, month, operation } from '../../made-up/month';
import { changed, ids, recordOf, SHORTER, STORED, withResult, without } from '../../made-up/read-month';
import { plainReflection, aTear } from '../../made-up/plain';

function viewOf(record: SurgeonRecord): AfterView {
  const state = goalReading(record, record.goals[0]!);
  const lasting = lastingOf(record, state);
  return afterView({ state, record, lasting, series: null, signal: 'Talk.' });
}
function resultOf(record: SurgeonRecord) {
  const { time } = viewOf(record);
  if (time.kind !== 'result') throw new Error(time.kind);
  return time;
}

describe('a window whose result was read', () => {
  const read = withResult(recordOf(60, SHORTER));

  it('stays full when a case of it is erased: nothing is hidden again, and the result stands as it was', () => {
    const after = without(read, 58);
    expect(goalWindow(after, after.goals[0]!)).toMatchObject({ full: true, running: [] });
    expect([...hiddenCaseIds(after)]).toEqual([]);
    expect(openGoals(after)[0]?.stage).toBe('deciding');
    expect(resultOf(after).result.head).toBe(resultOf(read).result.head);
    expect(resultOf(after).result.rows).toEqual(resultOf(read).result.rows);
    expect(resultOf(after).today?.reasons).toContain(
      '1 of the 20 cases of the window has been taken out of the record since.',
    );
  });

  it('draws no later case into it, so that what follows does not move', () => {
    const long = { ...withResult(recordOf(60, SHORTER)) };
    const cases = month(85, SHORTER);
    const later = { ...long, cases, lists: listsFor(cases) };
    const goal = later.goals[0]!;
    expect(goalWindow(later, goal).windows).toEqual([ids(41, 60), ids(61, 80)]);
    const after = goalWindow(without(later, 50), goal);
    expect(after.windows[1]).toEqual(ids(61, 80));
    expect(after.windows[0]).toEqual(ids(41, 60).filter((id) => id !== 'case-50'));
    // Without a result that was read, the window is simply the next twenty that count.
    const unread = goalWindow({ ...without(later, 50), results: [] }, goal);
    expect(unread.windows[0]?.at(-1)).toBe('case-61');
  });

  it('keeps its kind when a case of it is edited, and says beside it what changed', () => {
    const after = changed(read, 44, (one) => ({
      stretches: one.stretches.map((each) => (each.stepId === 'practised' ? { ...each, seconds: 400 } : each)),
      history: [{ at: '2026-09-05T08:00:00.000Z', what: 'Times changed' }],
    }));
    expect(resultOf(after).result.rows).toEqual(resultOf(read).result.rows);
    expect(resultOf(after).today?.reasons).toContain('1 of the 20 cases of the window has been changed since: C44.');
  });

  it('keeps its kind when a baseline case is left out later, and says so', () => {
    const leftOut = { reason: 'timing-unreliable', timesSeen: true, at: '2026-09-05T08:00:00.000Z' } as const;
    const after = changed(read, 12, () => ({ leftOut }));
    expect(resultOf(after).result.rows).toEqual(resultOf(read).result.rows);
    expect(resultOf(after).today?.reasons).toEqual(
      expect.arrayContaining([
        'The baseline cases have changed since the goal was set.',
        '1 of the 40 baseline cases has been left out since: C12.',
      ]),
    );
  });

  it('is said to be re-opened by a serious event written down later, its numbers untouched', () => {
    const event: Event = aTear('practised', { noticed: 'later' });
    const after = changed(read, 49, () => ({ events: [event] }));
    expect(viewOf(after).notices.join(' ')).toMatch(/^Since this result was read: .*stay as they were read\./);
    expect(resultOf(after).result.rows).toEqual(resultOf(read).result.rows);
  });

  it('is extended from its own twenty for a second look, whatever was erased of them', () => {
    const goal = decided(read.goals[0]!, 'second-look', 'not sure', STORED);
    const cases = month(85, SHORTER);
    const record = without({ ...read, goals: [goal], cases, lists: listsFor(cases) }, 45);
    const [window] = goalWindow(record, goal).windows;
    expect(window).toEqual([...ids(41, 81).filter((id) => id !== 'case-45')]);
  });
});

describe('a clock set back', () => {
  it('does not leave a result waiting for a decision that was made', () => {
    const read = withResult(recordOf(60, SHORTER));
    const goal = decided(read.goals[0]!, 'keep', 'it helps', '2019-01-01T08:00:00.000Z');
    expect(openGoals({ ...read, goals: [goal] })[0]?.stage).toBe('following');
    const again = decided(goal, 'pause', 'leave', '2018-01-01T08:00:00.000Z');
    expect(openGoals({ ...read, goals: [again] })[0]?.stage).toBe('paused');
  });

  it('still says that cases of a read window have changed, if not which', () => {
    const read = withResult(recordOf(60, SHORTER));
    const after = changed(read, 44, (one) => ({
      stretches: one.stretches.map((each) => (each.stepId === 'practised' ? { ...each, seconds: 400 } : each)),
      history: [{ at: '2019-01-01T08:00:00.000Z', what: 'Times changed' }],
    }));
    expect(resultOf(after).today?.reasons).toEqual(['Cases it rests on have changed since.']);
  });

  it('asks for a decision on the second look, although the first was decided at a later hour', () => {
    const read = withResult(recordOf(60, SHORTER));
    const kept = decided(read.goals[0]!, 'keep', '', '2026-12-01T08:00:00.000Z');
    const goal = decided(kept, 'second-look', '', '2019-01-01T08:00:00.000Z');
    const second: StoredResult = { ...read.results[0]!, id: 'result-2', look: 'second', storedAt: STORED };
    const record = { ...read, goals: [goal], results: [...read.results, second] };
    expect(openGoals(record)[0]?.stage).toBe('deciding');
  });

  it('counts the cases that came after the goal was set, by their order in the record', () => {
    // Set "in 2019", before every one of its baseline cases.
    const record = recordOf(60, {}, { setAt: '2019-01-01T08:00:00.000Z' });
    const dated = record.lists.map((list, at) => ({
      ...list,
      when: { kind: 'date' as const, date: `2026-06-${String(at + 1).padStart(2, '0')}` },
    }));
    expect(goalWindow({ ...record, lists: dated }, record.goals[0]!)).toMatchObject({ full: true, operatedBefore: 0 });
  });

  it('takes the answer written down last for the latest one', () => {
    const note = (n: number, at: string, answer: 'done' | 'not'): Reflection => ({
      id: `reflection-${n}`,
      at,
      caseIds: ['case-41'],
      goalId: 'goal-1',
      stepId: 'practised',
      ...plainReflection(),
      answers: [{ caseId: 'case-41', checkpointId: 'fold', answer }],
    });
    const notes = [note(1, '2026-06-10T08:00:00.000Z', 'not'), note(2, '2019-06-10T08:00:00.000Z', 'done')];
    expect(latestAnswers('goal-1', notes).get('case-41 fold')?.answer).toBe('done');
  });
});

describe('two goals on overlapping windows', () => {
  const second = (over: Partial<Goal>): Goal => ({ ...goalAfter(45), id: 'goal-2', ...over });

  it('count the same cases, each for itself, and hide the times of both', () => {
    const record = recordOf(58);
    const both = { ...record, goals: [...record.goals, second({ stepId: 'fifth' })] };
    expect(goalWindow(both, both.goals[0]!).running).toEqual(ids(41, 58));
    expect(goalWindow(both, both.goals[1]!).running).toEqual(ids(46, 58));
    expect([...hiddenCaseIds(both)].sort()).toEqual(ids(41, 58).sort());
  });

  it('keep a step that is itself under a goal out of the rest of the other', () => {
    const record = recordOf(70, SHORTER);
    const [first] = record.goals;
    const both = { ...record, goals: [first!, second({ stepId: 'fifth' })] };
    const caseIds = ids(1, 60);
    expect(stepsUnderGoal(both, first!, caseIds)).toEqual(['fifth']);
    expect(stepsUnderGoal(both, both.goals[1]!, caseIds)).toEqual(['practised']);
    const judge = (underGoal: string[]) =>
      resultFor({
        cases: both.cases,
        lists: both.lists,
        procedure: operation,
        baseline: first!.baseline,
        windowIds: ids(41, 60),
        stepId: 'practised',
        measure: 'time',
        look: 'first',
        seed: 1,
        watch: [],
        underGoal,
        seriousRate: null,
        casesBefore: null,
        inTraining: false,
      });
    expect(goalReading(both, first!).outcome?.against).toEqual(judge(['fifth']).against);
    expect(judge(['fifth']).against).not.toEqual(judge([]).against);
  });

  it('on one step are two goals of which neither moves the other', () => {
    const record = withResult(recordOf(66, SHORTER));
    const both = { ...record, goals: [...record.goals, second({})] };
    expect(resultOf(both).result.rows).toEqual(resultOf(record).result.rows);
    expect(stepsUnderGoal(both, both.goals[0]!, ids(1, 66))).toEqual([]);
    expect(goalWindow(both, both.goals[1]!).windows[0]).toEqual(ids(46, 65));
  });
});

describe('a goal on a step that was retired', () => {
  const retiredIn = (record: SurgeonRecord): SurgeonRecord => ({
    ...record,
    procedures: [
      {
        ...operation,
        steps: operation.steps.map((step) => ({ ...step, retired: step.id === 'practised' || step.retired })),
      },
    ],
  });

  it('keeps its window and gets its result from the times there are', () => {
    const record = recordOf(60, SHORTER);
    expect(goalReading(retiredIn(record), record.goals[0]!).outcome).toEqual(
      goalReading(record, record.goals[0]!).outcome,
    );
  });

  it('says on Now and After twenty why its window hardly fills, and what can be done', () => {
    const record = retiredIn(recordOf(53));
    const words = /is retired in Settings.*Bring it back there, or move on/;
    expect(nowView(record, null).rest).toMatch(words);
    expect(viewOf(record).notices.join(' ')).toMatch(words);
    expect(nowView(recordOf(53), null).rest).not.toMatch(words);
    expect(viewOf(recordOf(53)).notices.join(' ')).not.toMatch(words);
  });

  it('keeps its name on the note for the list and on the plan', () => {
    const record = retiredIn(recordOf(53));
    const [goal] = record.goals;
    const texts = { standing: [], foot: [], generalLead: '', generalPoints: [], rupture: [] };
    const { label } = operation.steps.find(({ id }) => id === 'practised')!;
    expect(noteViews(record.goals, record.procedures, texts)).toMatchObject([{ kind: 'goal', title: label }]);
    expect(goalView(goal!, record)).toMatchObject({ step: label, lead: expect.stringContaining('Running.') });
  });

  it('is not suggested, nor ranked, while its times stay in sight', () => {
    const slow = month(60).map((one) => ({
      ...one,
      stretches: one.stretches.map((each, at) =>
        each.stepId === 'practised' ? { ...each, seconds: each.seconds * (one.sequence % 3 === 0 ? 4 : 1) + at } : each,
      ),
    }));
    const audit = (procedure: typeof operation) =>
      auditOf({ cases: slow, lists: listsFor(slow), procedure, references: [], seed: 1, resamples: 200 });
    const stepIn = (procedure: typeof operation) => audit(procedure).steps.find(({ stepId }) => stepId === 'practised');
    expect(stepIn(operation)?.first.seconds).toBeGreaterThan(0.3);
    const [procedure] = retiredIn(recordOf(1)).procedures;
    expect(stepIn(procedure!)?.first).toEqual({ seconds: null, spread: null, reference: null });
    expect(stepIn(procedure!)?.median).toBe(stepIn(operation)?.median);
  });
});
