import { pauseWords } from '../../../src/lib/words';
import { describe, expect, it } from 'vitest';
import { afterView } from '../../../src/lib/rooms/after-twenty/after-view';
import { decided } from '../../../src/lib/rooms/after-twenty/decisions';
import { goalLines } from '../../../src/lib/rooms/after-twenty/goal-lines';
import { goalReading, lastingOf, seriesOf } from '../../../src/lib/rooms/goals/goal-reading';
import type { SurgeonRecord, Case, Event } from '../../../src/lib/model';
import { goalReport, monthReport, reportMarkdown, yearReport } from '../../../src/lib/rooms/report';
import { changed, recordOf, SHORTER, withResult, without } from '../../made-up/read-month';
import { aTear } from '../../made-up/plain';

const inJune = (record: SurgeonRecord): SurgeonRecord => ({
  ...record,
  lists: record.lists.map((list) => ({ ...list, when: { kind: 'date' as const, date: '2026-06-10' } })),
});
const linesOf = (record: SurgeonRecord) =>
  goalLines(record, (goal) => {
    const state = goalReading(record, goal);
    return { state };
  });
const reported = (record: SurgeonRecord) => ({
  ...record,
  cautions: [],
  falsePerHundred: 3,
  lines: linesOf(record),
});
const goalIn = (record: SurgeonRecord) => {
  const state = goalReading(record, record.goals[0]!);
  return goalReport(state, reported(record), [], lastingOf(record, state));
};
const monthIn = (record: SurgeonRecord, goals = record.goals) =>
  monthReport('2026-06', goals, reported(inJune(record)), []);
const yearIn = (record: SurgeonRecord) => yearReport('2026', record.goals, reported(inJune(record)));
const afterIn = (record: SurgeonRecord) => {
  const state = goalReading(record, record.goals[0]!);
  const lasting = lastingOf(record, state);
  return afterView({ state, record, lasting, series: null, signal: 'Talk.' });
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

describe('the period of a report on a goal', () => {
  it('covers the months of its cases', () => {
    const record = withResult(recordOf(60));
    const dated = {
      ...record,
      lists: record.lists.map((list, at) => ({
        ...list,
        when: { kind: 'date' as const, date: at < 4 ? '2025-11-03' : '2026-06-10' },
      })),
    };
    expect(goalIn(dated).period).toMatch(/^Cases of November 2025 to June 2026; set in .+, read in September 2026$/);
  });
});

describe('the period of a report on a goal that was read', () => {
  it('ends with the last complete twenty: cases of the one that still fills are not in it', () => {
    const read = withResult(recordOf(65));
    const [goal] = read.goals;
    const { window } = goalReading(read, goal!);
    const filling = new Set(read.cases.filter(({ id }) => window.running.includes(id)).map(({ listId }) => listId));
    expect(filling.size).toBeGreaterThan(0);
    const dated = {
      ...read,
      lists: read.lists.map((list) => ({
        ...list,
        when: { kind: 'date' as const, date: filling.has(list.id) ? '2026-11-03' : '2026-06-10' },
      })),
    };
    expect(goalIn(dated).period).toMatch(/^Cases of June 2026; set in/);
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

describe('a result after something changed in the record', () => {
  const AFTER = '2026-09-05T08:00:00.000Z';
  const read = withResult(recordOf(60, SHORTER));
  const edit = (one: Case): Partial<Case> => ({
    stretches: one.stretches.map((each) => (each.stepId === 'practised' ? { ...each, seconds: 400 } : each)),
    history: [{ at: AFTER, what: 'Times changed' }],
  });
  const leaveOut = (): Partial<Case> => ({ leftOut: { reason: 'timing-unreliable', timesSeen: true, at: AFTER } });
  const cases: [string, SurgeonRecord, string[]][] = [
    [
      'a case of the window erased',
      without(read, 58),
      ['1 of the 20 cases of the window has been taken out of the record since'],
    ],
    [
      'baseline cases erased',
      without(read, 3, 9),
      [
        'The baseline cases have changed since the goal was set',
        '2 of the 40 baseline cases have been taken out of the record since',
      ],
    ],
    ['one left out', changed(read, 12, leaveOut), ['1 of the 40 baseline cases has been left out since']],
    ['one edited', changed(read, 44, edit), ['1 of the 20 cases of the window has been changed since']],
    [
      'all of it',
      changed(changed(without(read, 3, 58, 59), 12, leaveOut), 44, edit),
      [
        '1 of the 40 baseline cases has been taken out of the record since',
        '1 of the 40 baseline cases has been left out since',
        '2 of the 20 cases of the window have been taken out of the record since',
        '1 of the 20 cases of the window has been changed since',
      ],
    ],
  ];

  it.each(cases)('is told in the same sentences by both rooms: %s', (_, record, expected) => {
    const { time } = afterIn(record);
    if (time.kind !== 'result' || !time.today) throw new Error(`${time.kind}: nothing beside it`);
    const { sentence, reasons } = time.today;
    const plain = reasons.map((reason) => reason.replace(/(: C[\d, Cand]+)?\.$/, ''));
    for (const each of expected) expect(plain).toContain(each);
    const goal = reportMarkdown(goalIn(record));
    expect(goal).toContain(`**${time.result.head}**`);
    expect(goal).toContain([sentence, ...plain.map((each) => `${each}.`)].join(' '));
    // In a list of goals, here and there, today's figure is left out.
    const [line] = linesOf(record);
    expect(line?.since).toEqual(plain.map((each) => `${each}.`));
    for (const report of [monthIn(record), yearIn(record)])
      expect(reportMarkdown(report)).toContain(`${line?.said}. ${line?.since.join(' ')}`);
    for (const report of [goalIn(record), monthIn(record), yearIn(record)])
      expect(JSON.stringify(report)).not.toMatch(/\bC\d+\b|case-\d+/);
  });

  it('is counted in the figures of every report', () => {
    const [, record] = cases[4]!;
    const rows = (report: ReturnType<typeof goalIn>) =>
      report.figures.filter(({ name }) => name.includes('since the result was read'));
    expect(rows(goalIn(record)).map(({ name, value, n }) => [name, value, n])).toEqual([
      ['baseline cases taken out since the result was read', 1, 40],
      ['baseline cases left out since the result was read', 1, 40],
      ['cases of the window taken out since the result was read', 2, 20],
      ['cases of the window changed since the result was read', 1, 20],
    ]);
    for (const report of [monthIn(record), yearIn(record)])
      expect(rows(report).map(({ name }) => name)).toEqual(
        rows(goalIn(record)).map(({ name }) => `Practised: ${name}`),
      );
  });

  it('says nothing of the kind where nothing changed', () => {
    for (const report of [goalIn(read), monthIn(read), yearIn(read)]) {
      expect(reportMarkdown(report)).not.toMatch(/\bsince\b(?! the goal)/);
      expect(report.figures.filter(({ name }) => name.includes('since'))).toEqual([]);
    }
  });

  it('says why there is none: not full, or full and not read yet', () => {
    const strong = (record: SurgeonRecord) =>
      goalIn(record).sections.find(({ heading }) => heading === 'Result')?.strong;
    expect(strong(recordOf(53))).toBe('No result yet: the twenty are not complete.');
    expect(strong(recordOf(60, SHORTER))).toBe('The next twenty are complete; the result has not been read yet.');
  });

  it('says of a first look what became of it, while the second is counted', () => {
    const goal = decided(read.goals[0]!, 'second-look', 'not sure', AFTER);
    const record = without({ ...read, goals: [goal] }, 45);
    const { time } = afterIn(record);
    if (time.kind !== 'hidden' || !time.earlier) throw new Error(time.kind);
    expect(time.earlier.since).toContain('1 of the 20 cases of the window has been taken out of the record since.');
    const said = reportMarkdown(goalIn(record));
    expect(said).toContain(time.earlier.since.join(' '));
    expect(said).toContain('This is the first look, at twenty; the second, at forty, is not complete yet.');
    expect(said).not.toContain("Today's data");
  });

  it('is said to wait for a safety review in the goal, in its line and in the month', () => {
    const event: Event = aTear('practised', { noticed: 'later' });
    const record = changed(read, 49, () => ({ events: [event] }));
    const because = goalReading(record, record.goals[0]!).gate?.reasons.map(pauseWords).join(' ');
    expect(afterIn(record).notices.join(' ')).toContain(`Since this result was read: ${because}`);
    expect(reportMarkdown(goalIn(record))).toContain(`Since this result was read: ${because}`);
    for (const text of [linesOf(record)[0]!.since.join(' '), reportMarkdown(monthIn(record))])
      expect(text).toContain('Since it was read, a safety review has become due.');
  });

  it('has the words of After twenty for a goal that judges no time, and for a pause', () => {
    const done = withResult(recordOf(60, {}, { measure: 'checkpoints' }));
    expect(reportMarkdown(goalIn(done))).toContain('**What you did is the result.**');
    const event: Event = aTear('practised');
    const paused = changed(recordOf(60, SHORTER), 49, () => ({ events: [event] }));
    const text = reportMarkdown(goalIn(paused));
    expect(text).toContain('**Paused for safety review.**');
    expect(text).toContain(pauseWords(goalReading(paused, paused.goals[0]!).gate!.reasons[0]!));
    expect(text).not.toContain('then write here what you will do');
  });
});

describe('the answer of a report', () => {
  const read = withResult(recordOf(60, SHORTER));

  it('is its head: the result by name, none before it, a count of operations, of goals', () => {
    expect(goalIn(read).head).toBe('Practised: shorter, beyond the rest of the operation.');
    expect(goalIn(recordOf(50)).head).toBe('Practised: no result yet.');
    expect(monthIn(read).head).toBe(`June 2026: ${monthIn(read).sections[0]?.lines[0]}`);
    expect(yearIn(read).head).toBe('2026: 1 goal set.');
    expect(yearReport('2024', [], reported(inJune(read))).head).toBe('2024: a year without a goal.');
  });

  it('has the run of baseline cases and window, without a code, a day or a list by name; none before a result', () => {
    const drawn = (record: SurgeonRecord) => {
      const state = goalReading(record, record.goals[0]!);
      const report = goalReport(state, reported(record), [], lastingOf(record, state), seriesOf(record, state));
      return report.sections.find(({ heading }) => heading === 'Result')?.run;
    };
    const run = drawn(read);
    const state = goalReading(read, read.goals[0]!);
    expect(run?.cases.filter(({ period }) => period === 0)).toHaveLength(state.goal.baseline.caseIds.length);
    expect(run?.cases.filter(({ period }) => period === 1)).toHaveLength(20);
    expect(run?.periods[1]?.median).toBeLessThan(0.9);
    const told = JSON.stringify(run);
    for (const { id, code } of read.cases)
      for (const name of [`"${id}"`, `"${code}"`]) expect(told).not.toContain(name);
    for (const { id } of read.lists) expect(told).not.toContain(`"${id}"`);
    expect(told).not.toMatch(/20\d\d-\d\d/);
    expect(drawn(recordOf(50))).toBeUndefined();
  });
});
