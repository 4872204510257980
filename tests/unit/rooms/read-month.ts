import { ENGINE } from '../../../src/lib/assess/engine';
import { goalState } from '../../../src/lib/rooms/goals/goal-state';
import type { SurgeonRecord, Case, Goal, StoredResult } from '../../../src/lib/model';
import { hashOfCases } from '../../../src/lib/practice';
import { goalAfter, listsFor, month, operation, type Month } from '../practice/made-month';
import { aRecord } from './made-up';

export const STORED = '2026-09-01T08:00:00.000Z';
export const SHORTER: Month = { change: Math.log(0.7) };
export const ids = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, at) => `case-${from + at}`);

export function recordOf(count: number, how: Month = {}, over: Partial<Goal> = {}): SurgeonRecord {
  const cases = month(count, how);
  const goal = goalAfter(40, over);
  const start = cases.filter(({ sequence }) => sequence <= 40);
  const fixed = { ...goal, baseline: { ...goal.baseline, hash: hashOfCases(start) } };
  return aRecord({ procedures: [operation], cases, lists: listsFor(cases), goals: [fixed] });
}

/** The record with the result of its first goal stored, as the server stores it the first time the window is full. */
export function withResult(record: SurgeonRecord): SurgeonRecord {
  const goal = record.goals[0]!;
  const state = goalState(record, goal);
  const windowIds = state.window.windows[0];
  if (!state.outcome || !windowIds) throw new Error('the window is not full');
  const result: StoredResult = {
    id: 'result-1',
    goalId: goal.id,
    look: state.look,
    storedAt: STORED,
    inputHash: state.inputHash,
    baselineIds: goal.baseline.caseIds,
    windowIds,
    stepId: goal.stepId,
    seed: 1,
    engine: ENGINE,
    outcome: state.outcome,
  };
  return { ...record, results: [result] };
}

export const without = (record: SurgeonRecord, ...gone: number[]): SurgeonRecord => ({
  ...record,
  cases: record.cases.filter(({ sequence }) => !gone.includes(sequence)),
});
export const changed = (
  record: SurgeonRecord,
  sequence: number,
  change: (one: Case) => Partial<Case>,
): SurgeonRecord => ({
  ...record,
  cases: record.cases.map((one) => (one.sequence === sequence ? { ...one, ...change(one) } : one)),
});
