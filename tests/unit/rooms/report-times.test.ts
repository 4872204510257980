import { describe, expect, it } from 'vitest';
import type { Case, SurgeonRecord } from '../../../src/lib/model';
import { monthReport, reportMarkdown, yearReport } from '../../../src/lib/rooms/report';
import { listsFor, month, operation, type Month } from '../../made-up/month';
import { aRecord } from '../../made-up/record';
import { recordOf } from '../../made-up/read-month';

/** Lists of five, one a week from 6 January 2025 on. */
function dated(count: number, how: Month = {}): SurgeonRecord {
  const cases = month(count, how);
  const lists = listsFor(cases).map((list, at) => ({
    ...list,
    when: { kind: 'date' as const, date: new Date(Date.UTC(2025, 0, 6 + 7 * at)).toISOString().slice(0, 10) },
  }));
  return aRecord({ procedures: [operation], cases, lists });
}
const reported = (record: SurgeonRecord) => ({ ...record, cautions: [], falsePerHundred: 2, lines: [] });
const monthOf = (period: string, record: SurgeonRecord) => monthReport(period, [], reported(record), []);
const yearOf = (period: string, record: SurgeonRecord) => yearReport(period, [], reported(record));
const section = (report: ReturnType<typeof monthOf>, heading: string) =>
  report.sections.find((each) => each.heading === heading);
const secondsOf = (cases: readonly Case[], stepId: string) =>
  cases.map(({ stretches }) => stretches.find((each) => each.stepId === stepId)!.seconds).sort((a, b) => a - b);
const minutes = (seconds: number) =>
  `${Math.floor(Math.round(seconds) / 60)}:${String(Math.round(seconds) % 60).padStart(2, '0')}`;

describe('a month without a goal', () => {
  const record = dated(60);

  it('gives median, 20th percentile and two thirds of each step as recorded in that month', () => {
    const table = section(monthOf('2025-01', record), 'Times')!.table!;
    expect(table.columns).toEqual([
      'Step',
      'Cases',
      'Median',
      '20th percentile',
      'Two thirds',
      'Events, of those answered',
    ]);
    // Four Mondays in January from the 6th on: cases 1 to 20.
    const times = secondsOf(record.cases.slice(0, 20), 'practised');
    // Type 8 of Hyndman and Fan (1996): place 1/3 + share · (n + 1/3), counted from 1, between neighbours in proportion.
    const at = (share: number) => {
      const place = 1 / 3 + share * (20 + 1 / 3);
      const below = Math.floor(place);
      return times[below - 1]! + (place - below) * (times[below]! - times[below - 1]!);
    };
    expect(table.rows[1]).toEqual([
      'Practised',
      '20',
      minutes(at(0.5)),
      minutes(at(0.2)),
      `${minutes(at(1 / 6))} to ${minutes(at(5 / 6))}`,
      '0 of 20',
    ]);
    expect(monthOf('2025-01', record).figures).toContainEqual({
      name: 'Practised: median; two thirds',
      value: expect.closeTo(at(0.5), 9) as number,
      low: expect.closeTo(at(1 / 6), 9) as number,
      high: expect.closeTo(at(5 / 6), 9) as number,
      n: 20,
      unit: 's',
    });
  });

  it('counts events at each step over answered cases, and says where one is tied to none', () => {
    const event = { kind: 'tear', serious: true, nearMiss: false, noticed: 'during' as const, reviewed: null };
    const cases = record.cases.map((one, at): Case => {
      if (at === 0) return { ...one, events: [{ ...event, stepId: 'practised' }] };
      if (at === 1) return { ...one, events: [{ ...event, stepId: null }] };
      return at < 5 ? { ...one, events: null } : one;
    });
    const { table, lines } = section(monthOf('2025-01', { ...record, cases }), 'Times')!;
    // Of twenty, three are not answered. The one event tied to no step counts as answered, and is said above the table.
    expect(table!.rows[1]!.at(-1)).toBe('1 of 17');
    expect(table!.rows[0]!.at(-1)).toBe('0 of 17');
    expect(lines[0]).toContain('1 case with an event tied to no step is counted at no step.');
    const never = { ...record, cases: record.cases.map((one) => ({ ...one, events: null })) };
    expect(section(monthOf('2025-01', never), 'Times')!.table!.rows[0]!.at(-1)).toBe('not asked');
  });

  it('draws the run of its cases without a code or a day', () => {
    const { run } = section(monthOf('2025-01', record), 'Times')!;
    expect(run!.cases).toHaveLength(20);
    const logs = operation.steps.map(({ id }) => {
      const times = secondsOf(record.cases.slice(0, 20), id);
      const own = record.cases[0]!.stretches.find(({ stepId }) => stepId === id)!.seconds;
      return Math.log(own / ((times[9]! + times[10]!) / 2));
    });
    expect(run!.cases[0]!.ratio).toBeCloseTo(Math.exp(logs.reduce((a, b) => a + b) / logs.length), 9);
    const text = JSON.stringify(monthOf('2025-01', record).sections);
    expect(text).not.toMatch(/"C\d|case-\d|list-\d|2025-0/);
  });

  it('stands in Markdown as a table, and not beside a goal', () => {
    expect(reportMarkdown(monthOf('2025-01', record))).toMatch(/\| Step \| Cases \| Median \|.*\n\| --- /);
    const withGoal = recordOf(60);
    const june = {
      ...withGoal,
      lists: withGoal.lists.map((list) => ({ ...list, when: { kind: 'date' as const, date: '2026-06-10' } })),
    };
    const report = monthReport('2026-06', june.goals, reported(june), []);
    expect(report.sections.map(({ heading }) => heading)).toEqual([
      'Operations',
      'Goals, as they stand today',
      'Safety',
    ]);
  });

  it('leaves out times that a running window hides, and says how many', () => {
    const hidden = recordOf(50);
    const july = {
      ...hidden,
      lists: hidden.lists.map((list) => ({ ...list, when: { kind: 'date' as const, date: '2026-07-06' } })),
    };
    const { table, lines } = section(monthOf('2026-07', july), 'Times')!;
    expect(table!.rows[0]![1]).toBe('40');
    expect(lines[0]).toContain('10 cases of a running window are not in it');
  });
});

describe('a year without a goal', () => {
  it('is compared with the year before, where there is one', () => {
    // 52 Mondays of 2025 from 6 January on, five cases each.
    const record = dated(400, { change: Math.log(0.7), from: 260 });
    const report = yearOf('2026', record);
    expect(report.title).toBe('One year');
    expect(section(report, 'Goals')!.lines).toEqual(['A year without a goal.']);
    const against = section(report, 'Against 2025')!;
    expect(against.strong).toBe('Practised was shorter in 2026 than in 2025.');
    expect(against.lines.join(' ')).toContain('140 cases over 28 lists against 260 cases over 52 lists');
    expect(against.lines.join(' ')).toContain('Does not say: Why');
    expect(section(yearOf('2025', record), 'Against 2024')).toBeUndefined();
  });

  it('says what is missing where there is too little', () => {
    const against = section(yearOf('2026', dated(270)), 'Against 2025')!;
    expect(against.strong).toBe('These two cannot be compared.');
    expect(against.lines[0]).toBe('20 counted cases are needed in each; there are 260 and 10.');
  });
});
