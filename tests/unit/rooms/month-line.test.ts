import { describe, expect, it } from 'vitest';
import { monthLine } from '../../../src/lib/rooms/now/month-line';
import type { Goal, Reflection } from '../../../src/lib/model';
import { aGoal, aRecord, casesInLists } from '../../made-up/record';
import { plainReflection } from '../../made-up/plain';

/** 40 baseline cases, and `more` after them, in lists of five. */
const record = (more: number, goal: Partial<Goal> = {}, reviewedIds: string[] = []) => {
  const reflection: Reflection = {
    id: 'reflection-1',
    at: '2026-06-01T10:00:00.000Z',
    caseIds: reviewedIds,
    goalId: 'goal-1',
    stepId: 'capsulorhexis',
    ...plainReflection(),
    answers: reviewedIds.map((caseId) => ({ caseId, checkpointId: 'regrasp', answer: 'done' })),
  };
  return aRecord({
    ...casesInLists(40 + more, 5),
    goals: [aGoal(40, goal)],
    reflections: reviewedIds.length > 0 ? [reflection] : [],
  });
};
const strokes = (line: ReturnType<typeof monthLine>) => line?.points.flatMap((point) => point.strokes ?? []) ?? [];

describe('the month as one line', () => {
  it('is not there without an open goal', () => {
    expect(monthLine(aRecord(casesInLists(40, 5)))).toBeNull();
    expect(monthLine(record(5, { state: 'closed' }))).toBeNull();
  });

  it('has a stroke a counted case, list by list, and tells the reviewed from the waiting', () => {
    const line = monthLine(record(13, {}, ['case-41', 'case-42', 'case-43', 'case-44', 'case-45', 'case-46']));
    expect(line?.now).toBe('13 of 20, over 3 of 4 lists');
    expect(line?.points.map(({ title }) => title)).toEqual([
      'Chosen',
      'Planned',
      'List 9',
      'List 10',
      'List 11',
      'Next list',
      'Result',
    ]);
    expect(line?.points[1]?.words).toBe('1 May, 40 baseline cases');
    expect(line?.points[2]?.words).toBe('5 counted, checkpoints answered');
    expect(line?.points[3]).toMatchObject({
      words: '5 counted, 4 wait for review',
      strokes: [true, false, false, false, false],
    });
    expect(line?.points.at(-1)).toMatchObject({ words: 'at twenty: 7 cases and 1 list to come', past: false });
    expect(strokes(line)).toHaveLength(13);
  });

  it('says how many were operated, and how many of them count', () => {
    const told = record(13);
    const lists = told.lists.map((list) => ({ ...list, operated: 7 }));
    expect(monthLine({ ...told, lists })?.points[2]?.words).toBe('7 operated, 5 counted, 5 wait for review');
  });

  it('does not ask for reviews where a goal has no checkpoints', () => {
    const line = monthLine(record(7, { checkpoints: [] }));
    expect(strokes(line)).toEqual(Array(7).fill(true));
    expect(line?.points[2]?.words).toBe('5 counted');
  });

  it('keeps every stroke where there are more lists than the line can name', () => {
    const many = aRecord({ ...casesInLists(40 + 19, 2), goals: [aGoal(40)] });
    const line = monthLine(many);
    expect(line?.points.filter((point) => point.strokes)).toHaveLength(6);
    expect(line?.points[2]?.title).toBe('5 lists');
    expect(strokes(line)).toHaveLength(19);
  });

  it('leaves a draft without lists, and leads to its plan', () => {
    const line = monthLine(record(5, { state: 'draft' }));
    expect(line).toMatchObject({ href: '/plan/goal-1', now: 'A plan waits for your supervisor' });
    expect(strokes(line)).toEqual([]);
  });

  it('shows no duration and no share anywhere', () => {
    const words = JSON.stringify(monthLine(record(13)));
    expect(words).not.toMatch(/\d+ ?s\b|\d:\d\d|min|%/);
  });
});
