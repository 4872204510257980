import { describe, expect, it } from 'vitest';
import { afterView } from '../../../src/lib/assessment/after-view';
import { goalState, lastingState } from '../../../src/lib/assessment/goal-state';
import type { SurgeonRecord } from '../../../src/lib/assessment/record';
import { goalReport, monthReport, reportMarkdown, yearReport } from '../../../src/lib/assessment/report';
import type { Case } from '../../../src/lib/model';
import { changed, recordOf, SHORTER, withResult } from './read-month';

const inJune = (record: SurgeonRecord): SurgeonRecord => ({
  ...record,
  lists: record.lists.map((list) => ({ ...list, when: { kind: 'date' as const, date: '2026-06-10' } })),
});
const reported = (record: SurgeonRecord) => ({
  ...record,
  cautions: [],
  falsePerHundred: 3,
  lineOf: () => 'Practised: shorter.',
});
const goalIn = (record: SurgeonRecord) => {
  const state = goalState(record, record.goals[0]!);
  return goalReport(state, reported(record), [], lastingState(record, state));
};
const monthIn = (record: SurgeonRecord, goals = record.goals) =>
  monthReport('2026-06', goals, reported(inJune(record)), []);
const yearIn = (record: SurgeonRecord) => yearReport('2026', record.goals, reported(inJune(record)));
const afterIn = (record: SurgeonRecord) => {
  const state = goalState(record, record.goals[0]!);
  const lasting = lastingState(record, state);
  return afterView({ state, record, lasting, series: null, drawn: state.window.windows, signal: 'Talk.' });
};
const takenOver = (stepId: string | null) => (): Partial<Case> => ({
  hands: stepId ? { whole: 'mine', steps: { [stepId]: 'taken-over' } } : { whole: 'taken-over', steps: {} },
});

describe('takeovers in the report', () => {
  const read = withResult(recordOf(60, SHORTER));
  const taken = changed(changed(read, 45, takenOver('practised')), 50, takenOver('sixth'));

  it('are said of a goal as After twenty says them, none included', () => {
    for (const record of [read, taken]) {
      const said = afterIn(record).safety.takeovers;
      expect(goalIn(record).sections.find(({ heading }) => heading === 'Safety')?.lines).toContain(said);
      expect(reportMarkdown(goalIn(record))).toContain(said);
    }
    expect(afterIn(taken).safety.takeovers).toMatch(/^The step was taken over in 1 of 20 cases \(/);
    expect(afterIn(read).safety.takeovers).toBe('No takeover of the step is written down in these 20 cases.');
  });

  it('are said of a month and a year for the operation and for each step by name', () => {
    for (const report of [monthIn(taken), yearIn(taken)]) {
      const text = reportMarkdown(report);
      expect(text).toContain('The operation or a step of it was taken over in 2 of 60 cases (');
      expect(text).toContain('Practised was taken over in 1 of 60 cases (');
    }
    const whole = monthIn(changed(read, 45, takenOver(null)), []);
    expect(reportMarkdown(whole)).toContain('The operation or a step of it was taken over in 1 of 60 cases (');
  });

  it('are figures with their number of cases', () => {
    const rows = (report: { figures: ReturnType<typeof goalIn>['figures'] }) =>
      report.figures.filter(({ name }) => name.includes('takeovers'));
    expect(rows(goalIn(taken))).toMatchObject([
      { name: 'takeovers of the step', value: 1, n: 20, unit: 'cases' },
      { name: 'share of takeovers of the step', value: 0.05, n: 20 },
    ]);
    expect(rows(monthIn(taken)).map(({ name, value, n }) => [name, value, n])).toEqual([
      ['takeovers of the operation or a step of it', 2, 60],
      ['share of takeovers of the operation or a step of it', 2 / 60, 60],
      ['takeovers of practised', 1, 60],
      ['share of takeovers of practised', 1 / 60, 60],
    ]);
  });
});

describe('the step in a month', () => {
  const record = recordOf(60);

  it('is named, and where no goal ran it is said that there is none', () => {
    const named = reportMarkdown(monthIn(record));
    expect(named).toContain('This cannot show that practised is safe');
    expect(named).not.toMatch(/\bthe step\b/i);
    const none = reportMarkdown(monthIn(record, []));
    expect(none).toContain('This cannot show that the operation is safe');
    expect(none).toContain('No step was under a goal.');
    expect(none).not.toMatch(/\bthe step\b/i);
    const two = [record.goals[0]!, { ...record.goals[0]!, id: 'goal-2', stepId: 'fifth' }];
    expect(reportMarkdown(monthIn(record, two))).toContain('This cannot show that practised and fifth are safe');
  });

  it('has no sentence on safety where no case was timed', () => {
    const empty = monthReport('2026-06', [], reported({ ...inJune(record), cases: [] }), []);
    expect(empty.sections.at(-1)).toEqual({ heading: 'Safety', strong: 'No timed case.', lines: [] });
  });
});
