import { lastedToStore } from '../../src/lib/rooms/after-twenty/lasted-words';
import { goalReading, lastingOf } from '../../src/lib/rooms/goals/goal-reading';
import type { SurgeonRecord, Case, Goal } from '../../src/lib/model';
import { hashOfCases } from '../../src/lib/practice';
import { goalAfter, listsFor, month, operation, type Month } from './month';
import { aRecord } from './record';

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

/** The record once the result of its first goal was read. */
export function withResult(record: SurgeonRecord, storedAt = STORED): SurgeonRecord {
  const { toStore } = goalReading(record, record.goals[0]!);
  if (!toStore) throw new Error('there is no result to read');
  return {
    ...record,
    results: [...record.results, { id: `result-${record.results.length + 1}`, storedAt, ...toStore }],
  };
}

/** The same once it was read whether it lasted. */
export function withLasted(record: SurgeonRecord, at = STORED): SurgeonRecord {
  const state = goalReading(record, record.goals[0]!);
  const latest = state.stored.at(-1);
  const fresh = lastedToStore(latest, lastingOf(record, state), at);
  if (fresh.length === 0) throw new Error('there is nothing of a following twenty to read');
  return {
    ...record,
    results: record.results.map((each) =>
      each.id === latest?.id ? { ...each, lasted: [...(each.lasted ?? []), ...fresh] } : each,
    ),
  };
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
