import { describe, expect, it } from 'vitest';
import { auditOf, countedCases } from '../../../src/lib/audit';
import type { Goal, Reflection, SurgeonRecord } from '../../../src/lib/model';
import { casesView, filterFrom } from '../../../src/lib/rooms/cases/cases-view';
import { chooseView } from '../../../src/lib/rooms/choose/choose-view';
import { waitingCases } from '../../../src/lib/rooms/goals/waiting-for-review';
import { monthLine } from '../../../src/lib/rooms/now/month-line';
import { nowView } from '../../../src/lib/rooms/now/now-view';
import { ids, recordOf, withResult } from '../../made-up/read-month';
import { plainReflection } from '../../made-up/plain';

/** Every count that is shown in more than one room, read off what each room says. */
const numberIn = (text: string, before: RegExp): number | null => {
  const found = before.exec(text)?.[1];
  return found === undefined ? null : Number(found);
};
const inNow = (record: SurgeonRecord) =>
  numberIn(nowView(record, null).rest, /(\d+) cases? waits? for your review/) ?? 0;

const asked = { checkpoints: [{ id: 'look', look: 'The port is seen before the hold.' }] };
/** Two cases of the window are answered. */
const answered: Reflection = {
  id: 'reflection-1',
  at: '2026-08-01T08:00:00.000Z',
  caseIds: ids(41, 42),
  goalId: 'goal-1',
  stepId: 'practised',
  ...plainReflection(),
  answers: ids(41, 42).map((caseId) => ({ caseId, checkpointId: 'look', answer: 'done' })),
};
const ofMonth = (count: number, over: Partial<Goal> = asked): SurgeonRecord => {
  const record = recordOf(count, {}, over);
  return { ...record, reflections: [{ ...answered, goalId: record.goals[0]!.id }] };
};

describe('cases that wait for review', () => {
  const read = (count: number): SurgeonRecord => {
    const record = withResult(ofMonth(count));
    const keep: Goal['decisions'][number] = { at: '2026-09-02T08:00:00.000Z', kind: 'keep', reason: 'To see.' };
    return { ...record, goals: record.goals.map((goal) => ({ ...goal, decisions: [keep] })) };
  };
  const records: [string, SurgeonRecord][] = [
    ['a window that runs', ofMonth(53)],
    ['a full one', ofMonth(60)],
    ['after the result was read', read(62)],
    ['after a following twenty', read(83)],
    ['without a checkpoint', ofMonth(53, { checkpoints: [] })],
  ];
  it.each(records)('are as many on Now as on Reflect: %s', (_, record) => {
    expect(inNow(record)).toBe(waitingCases(record).length);
  });

  it('are those without an answer, of every counted case of the goal', () => {
    expect(records.map(([, record]) => inNow(record))).toEqual([11, 18, 20, 41, 0]);
  });

  it('are as many on the strip of the month while the window runs', () => {
    for (const record of [ofMonth(53), ofMonth(60)]) {
      const strokes = monthLine(record)?.points.flatMap((point) => point.strokes ?? []) ?? [];
      expect(strokes.filter((reviewed) => !reviewed)).toHaveLength(inNow(record));
    }
  });
});

describe('lists', () => {
  it('are as many on Cases as on Choose, where the list of some cases is not known', () => {
    const record = recordOf(44);
    const some = {
      ...record,
      goals: [],
      cases: record.cases.map((one) => (one.sequence > 38 ? { ...one, listId: null } : one)),
    };
    const { cases, lists } = some;
    const [procedure] = some.procedures;
    const audit = auditOf({
      cases: countedCases(cases, procedure!),
      lists,
      procedure: procedure!,
      references: [],
      seed: 1,
      resamples: 20,
    });
    const choose = chooseView(audit, { kind: 'nothing', steps: [], view: null, also: [], because: [] }, 'seconds', {
      heldBack: 0,
      procedure: null,
    });
    const onCases = numberIn(casesView(some, new Set(), filterFrom(new Map())).head, /in (\d+) lists/);
    const onChoose = numberIn(choose.reading + choose.made.join(' '), /from (\d+) lists/);
    const recounted = [...new Set(cases.map(({ listId }) => listId))].filter((id) => id !== null).length;
    expect([onCases, onChoose, audit.enough.lists]).toEqual([recounted, recounted, recounted]);
  });
});
