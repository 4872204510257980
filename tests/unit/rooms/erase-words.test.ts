import { describe, expect, it } from 'vitest';
import { afterView } from '../../../src/lib/rooms/after-twenty/after-view';
import { erasedOfGoal, erasedOfLists, leavesWith, partsOfGoals } from '../../../src/lib/rooms/cases/erase-words';
import { goalStanding } from '../../../src/lib/rooms/goals/goal-standing';
import { goalReading } from '../../../src/lib/rooms/goals/goal-reading';
import { goalReport, reportMarkdown } from '../../../src/lib/rooms/report';
import type { SurgeonRecord, Erased, Event, Goal } from '../../../src/lib/model';
import { changed, recordOf, withResult, without } from '../../made-up/read-month';
import { aTear } from '../../made-up/plain';

const reviewed: Event = aTear('practised', {
  reviewed: { at: '2026-07-01T08:00:00.000Z', text: 'Refill before the hold.' },
});
const caseOf = (record: SurgeonRecord, sequence: number) =>
  record.cases.find((one) => one.sequence === sequence) ?? record.cases[0]!;
const partsAt = (record: SurgeonRecord, sequence: number) =>
  partsOfGoals(caseOf(record, sequence), record).map(({ part }) => part);
const counted = (record: SurgeonRecord, erased: Goal['erased']): SurgeonRecord => ({
  ...record,
  goals: record.goals.map((goal) => ({ ...goal, erased })),
});
const none: Erased = { cases: 0, answered: 0 };
const saidOf = (record: SurgeonRecord) => erasedOfGoal(goalStanding(record, record.goals[0]!), record.cases);

describe('before a case is erased', () => {
  it('is said what leaves the record: the event, its review, and what is said of it afterwards', () => {
    const record = changed(recordOf(60), 45, () => ({ events: [reviewed] }));
    expect(leavesWith(caseOf(record, 45), record)).toEqual([
      'The event leaves the record, and your review of it: posterior capsule tear, at practised; serious; noticed during the operation.',
      'From then on every count of events covers fewer cases. After twenty and the report will therefore say that a case with events answered was erased, and nothing else about it.',
    ]);
    const minor = changed(record, 45, () => ({ events: [{ ...reviewed, serious: false, reviewed: null }] }));
    expect(leavesWith(caseOf(minor, 45), minor)[0]).toMatch(/^The event leaves the record: posterior capsule tear/);
  });

  it('is said of an answer without an event too, and nothing where events were not answered', () => {
    const record = changed(recordOf(60), 50, () => ({ events: null }));
    expect(leavesWith(caseOf(record, 45), record)[0]).toBe('The answer that there was no event leaves the record.');
    expect(leavesWith(caseOf(record, 50), record)).toEqual([]);
    const alone = { ...recordOf(60), goals: [] };
    const unlisted = { ...caseOf(alone, 45), listId: null };
    expect(leavesWith(unlisted, alone).join(' ')).not.toContain('After twenty');
  });

  it('is known of which goal it is a part, by the span in which events are looked for', () => {
    const read = withResult(recordOf(70));
    expect([1, 40, 41, 60, 61, 70].map((sequence) => partsAt(read, sequence))).toEqual([
      ['baseline'],
      ['baseline'],
      ['window'],
      ['window'],
      [],
      [],
    ]);
    // Other hands, so not counted: its events are looked at all the same.
    const others = changed(read, 50, () => ({ hands: { whole: 'someone-else', steps: {} } }));
    expect(partsAt(others, 50)).toEqual(['window']);
    // Still filling: what came after the latest counted case will be in it.
    const filling = changed(recordOf(53), 53, () => ({ hands: { whole: 'someone-else', steps: {} } }));
    expect(partsAt(filling, 53)).toEqual(['window']);
    const otherProcedure = changed(read, 50, () => ({ procedureId: 'other' }));
    expect(partsAt(otherProcedure, 50)).toEqual([]);
  });
});

describe('after a case was erased', () => {
  const read = withResult(recordOf(60));

  it('both rooms say how many with events answered are gone, and that counts are lower for it', () => {
    const record = counted(without(read, 3, 45), {
      baseline: { cases: 1, answered: 1 },
      window: { cases: 1, answered: 1 },
    });
    const said =
      'Erased, with events answered: 1 baseline case and 1 case of the window. The counts of events are lower for that reason.';
    expect(saidOf(record)).toEqual([said]);
    const state = goalReading(record, record.goals[0]!);
    const view = afterView({ state, record, lasting: [], series: null, signal: '' });
    expect(view.safety.sentences).toContain(said);
    const report = goalReport(state, { ...record, cautions: [], falsePerHundred: 3, lines: [] }, [], []);
    expect(reportMarkdown(report)).toContain(said);
    expect(report.figures.filter(({ name }) => name.includes('events answered'))).toMatchObject([
      { name: 'baseline cases erased with events answered', value: 1, n: 1 },
      { name: 'cases of the window erased with events answered', value: 1, n: 1 },
    ]);
  });

  it('says nothing where events had not been answered, and that it is not known where nothing was counted', () => {
    expect(saidOf(read)).toEqual([]);
    expect(saidOf(counted(without(read, 45), { baseline: none, window: { cases: 1, answered: 0 } }))).toEqual([]);
    expect(saidOf(without(read, 3, 45, 46))).toEqual([
      'No longer in the record: 1 baseline case and 2 cases of the window; whether events were answered in them is not known.',
    ]);
    expect(saidOf(without(read, 45))[0]).toMatch(/1 case of the window; whether events were answered in it is not/);
  });

  it('says that none is left where the whole window is gone', () => {
    const gone = without(read, ...Array.from({ length: 20 }, (_, at) => 41 + at));
    const state = goalReading(gone, gone.goals[0]!);
    const view = afterView({ state, record: gone, lasting: [], series: null, signal: '' });
    expect(view.safety.head).toBe('No case of the window is left.');
  });

  it('is said of the lists of a month', () => {
    const [first, second] = read.lists;
    const lists = [
      { ...first!, erased: { cases: 2, answered: 1 } },
      { ...second!, erased: { cases: 1, answered: 1 } },
    ];
    expect(erasedOfLists(lists)).toEqual([
      'Erased, with events answered: 2 cases of these lists. The counts of events are lower for that reason.',
    ]);
    expect(erasedOfLists(read.lists)).toEqual([]);
  });
});
