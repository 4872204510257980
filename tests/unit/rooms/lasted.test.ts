import { describe, expect, it } from 'vitest';
import { lastingFor } from '../../../src/lib/practice';
import { afterView } from '../../../src/lib/rooms/after-twenty/after-view';
import { goalReading, lastingOf } from '../../../src/lib/rooms/goals/goal-reading';
import { goalLines } from '../../../src/lib/rooms/after-twenty/goal-lines';
import { nowView } from '../../../src/lib/rooms/now/now-view';
import { monthLine } from '../../../src/lib/rooms/now/month-line';
import { goalReport, reportMarkdown } from '../../../src/lib/rooms/report';
import type { Event, Goal, SurgeonRecord } from '../../../src/lib/model';
import { hiddenCaseIds } from '../../../src/lib/rooms/goals/hidden-times';
import { goalAfter } from '../../made-up/month';
import { changed, recordOf, SHORTER, withLasted, withResult, without } from '../../made-up/read-month';

const timeOf = (record: SurgeonRecord) => {
  const state = goalReading(record, record.goals[0]!);
  const { time } = afterView({ state, record, lasting: lastingOf(record, state), series: null, signal: '' });
  if (time.kind !== 'result') throw new Error(time.kind);
  return time;
};
const reportOf = (record: SurgeonRecord) => {
  const state = goalReading(record, record.goals[0]!);
  const told = { ...record, cautions: [], falsePerHundred: 3, lines: goalLines(record, () => ({ state })) };
  return goalReport(state, told, [], lastingOf(record, state));
};
const percentOf = (ratio: number) => `${Math.abs(Math.round(100 * (ratio - 1)))}\u00A0% ${ratio < 1 ? 'less' : 'more'}`;

const keep: Goal['decisions'][number] = { at: '2026-09-02T08:00:00.000Z', kind: 'keep', reason: 'To see.' };
const complete = (count: number): SurgeonRecord => {
  const record = withResult(recordOf(count, SHORTER));
  return { ...record, goals: record.goals.map((goal) => ({ ...goal, decisions: [keep] })) };
};
/** Every time of the practised step in the following twenty, half as long again. */
const edited = (record: SurgeonRecord) =>
  Array.from({ length: 20 }, (_, at) => 61 + at).reduce(
    (so, sequence) =>
      changed(so, sequence, (one) => ({
        stretches: one.stretches.map((each) =>
          each.stepId === 'practised' ? { ...each, seconds: each.seconds * 1.5 } : each,
        ),
      })),
    record,
  );

describe('whether it lasted', () => {
  it('waits to be read once a following twenty is complete, and is told nowhere before', () => {
    const record = complete(80);
    const time = timeOf(record);
    expect(time.lasting).toEqual([]);
    expect(time.lastingReady).toMatchObject({
      sentence: expect.stringMatching(/^A following twenty is complete\./),
      offer: 'Read whether it lasted',
    });
    expect(reportMarkdown(reportOf(record))).toContain('whether it lasted has not been read yet');
    expect(goalLines(record, () => null)[0]?.said).toBe('shorter, beyond the rest of the operation');
    expect(nowView(record, null)).toMatchObject({ action: { label: 'See whether it lasted' } });
    expect(monthLine(record)?.points.at(-1)).toMatchObject({ words: 'can be read now' });
    expect(timeOf(complete(79)).lastingReady).toBeNull();
  });

  it('cannot be read while a serious event of the following twenty waits for its review', () => {
    const event = { kind: 'tear', stepId: null, serious: true, nearMiss: false, noticed: 'during' as const };
    const withEvent = (reviewed: Event['reviewed']) =>
      changed(complete(80), 70, () => ({ events: [{ ...event, reviewed }] }));
    expect(timeOf(withEvent(null))).toMatchObject({
      lasting: [],
      lastingReady: { sentence: expect.stringContaining('waits for its review'), offer: null },
    });
    expect(() => withLasted(withEvent(null))).toThrow('nothing of a following twenty');
    expect(monthLine(withEvent(null))?.points.at(-1)).toMatchObject({ words: 'complete, and waits' });
    expect(reportMarkdown(reportOf(withEvent(null)))).not.toContain('has not been read yet');
    expect(timeOf(withEvent({ at: '2026-08-30T10:00:00.000Z', text: null })).lastingReady?.offer).toBe(
      'Read whether it lasted',
    );
    // What was read stays, and stays drawn.
    const read = withLasted(complete(80));
    const since = changed(read, 70, () => ({ events: [{ ...event, reviewed: null }] }));
    expect(timeOf(since).lasting).toHaveLength(1);
    expect(goalReading(since, since.goals[0]!).drawn).toHaveLength(2);
  });

  it('is neither read nor drawn while another goal hides times of the following twenty', () => {
    const record = complete(80);
    const second = { ...record.goals[0]!, ...goalAfter(74, { id: 'goal-2', stepId: 'fifth' }) };
    const both = { ...record, goals: [...record.goals, second] };
    const hidden = hiddenCaseIds(both);
    expect(hidden.size).toBeGreaterThan(0);
    expect(timeOf(both).lastingReady).toEqual({
      sentence: `A following twenty is complete. The times of ${hidden.size} cases in it are hidden while the window of another goal runs: whether it lasted can be read after that.`,
      offer: null,
    });
    const { drawn } = goalReading(both, both.goals[0]!);
    expect(drawn.flat().filter((id) => hidden.has(id))).toEqual([]);
    expect(drawn.flat()).toHaveLength(20);
  });

  it('is shown as it was read, with its day, and is not offered again', () => {
    const record = withLasted(complete(83));
    const time = timeOf(record);
    const [kept] = record.results[0]?.lasted ?? [];
    expect(time.lastingReady).toBeNull();
    expect(time.lasting[0]?.head).toBe('Lasted');
    expect(time.lasting[0]?.sentence).toContain(`about ${percentOf(Math.exp(kept!.lasting.effect.estimate))}`);
    expect(time.lasting[0]?.sentence).toMatch(/Read on 1 September 2026\.$/);
    // Now counts on, instead of calling complete what was read.
    expect(nowView(record, null).head).toBe('Practised: 3 of the following twenty counted.');
    expect(monthLine(record)?.points.at(-1)).toMatchObject({ words: 'after 17 more cases' });
    expect(timeOf(withLasted({ ...record, cases: recordOf(100, SHORTER).cases })).lasting).toHaveLength(2);
  });

  it('that changed since says so, with the figure as it was read and as it is now', () => {
    const read = withLasted(complete(80));
    const record = edited(read);
    const then = Math.exp(read.results[0]!.lasted![0]!.lasting.effect.estimate);
    const [goal] = record.goals;
    const [today] = lastingFor({
      cases: record.cases,
      lists: record.lists,
      procedure: record.procedures[0]!,
      baseline: goal!.baseline,
      windows: goalReading(record, goal!).window.windows,
      stepId: 'practised',
    });
    const now = Math.exp(today!.effect.estimate);
    expect(percentOf(now)).not.toBe(percentOf(then));
    const { sentence } = timeOf(record).lasting[0]!;
    expect(sentence).toContain(`Read on 1 September 2026 as ${percentOf(then)}`);
    expect(sentence).toContain(`today's data would give ${percentOf(now)}`);
    // In the report and its files the same, with the figure that was read, and with months instead of days.
    expect(reportMarkdown(reportOf(record))).toContain(
      sentence.replace('Read on 1 September 2026', 'Read in September 2026'),
    );
    expect(reportOf(record).figures.find(({ name }) => name === 'following twenty 1')?.value).toBeCloseTo(then, 12);
  });

  it('whose cases were taken out stays as it was read, and says that today says nothing', () => {
    const read = withLasted(complete(80));
    const record = without(read, ...Array.from({ length: 20 }, (_, at) => 61 + at));
    expect(timeOf(record).lasting[0]?.sentence).toMatch(/it cannot be worked out today\.$/);
    expect(timeOf(record).lasting[0]?.head).toBe(timeOf(read).lasting[0]?.head);
  });
});
