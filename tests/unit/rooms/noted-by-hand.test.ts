import { describe, expect, it } from 'vitest';
import { suggestionFor } from '../../../src/lib/assess/suggest';
import { auditOf } from '../../../src/lib/audit';
import type { Case, SurgeonRecord } from '../../../src/lib/model';
import { afterView } from '../../../src/lib/rooms/after-twenty/after-view';
import { goalLines } from '../../../src/lib/rooms/after-twenty/goal-lines';
import { pairView } from '../../../src/lib/rooms/choose/pair-view';
import { stepView } from '../../../src/lib/rooms/choose/step-view';
import { goalReading, seriesOf } from '../../../src/lib/rooms/goals/goal-reading';
import { openGoals } from '../../../src/lib/rooms/goals/goal-standing';
import { mentorView } from '../../../src/lib/rooms/mentor/mentor-view';
import { stretchesToWatch } from '../../../src/lib/rooms/mentor/stretches';
import { nowView } from '../../../src/lib/rooms/now/now-view';
import { practiceMonth } from '../../../src/lib/rooms/now/practice-month';
import { planSource } from '../../../src/lib/rooms/plan/plan-source';
import { planView } from '../../../src/lib/rooms/plan/plan-view';
import { goalReport, reportMarkdown } from '../../../src/lib/rooms/report';
import { startGoal } from '../../../src/lib/practice';
import { suggestionWords } from '../../../src/lib/words';
import { randomStream } from '../../../src/lib/statistics';
import { changed, recordOf, SHORTER, withResult } from '../../made-up/read-month';

const source = { kind: 'by-hand' } as const;
const byHand = (record: SurgeonRecord): SurgeonRecord => ({
  ...record,
  cases: record.cases.map((one) => ({ ...one, source })),
});

/** One step that stands out: every other time of the fifth is twice as long. */
const oneStandsOut = (): SurgeonRecord => {
  const record = recordOf(60);
  const stream = randomStream(3, 1);
  const cases = record.cases.map((one) => ({
    ...one,
    stretches: one.stretches.map((each) =>
      each.stepId === 'fifth' ? { ...each, seconds: each.seconds * Math.exp(0.7 * stream.normal()) } : each,
    ),
  }));
  return { ...record, cases, goals: [] };
};

/** What every room says of the record, up to the result of its goal. */
async function said(record: SurgeonRecord): Promise<string[]> {
  const [procedure] = record.procedures;
  const { cases, lists } = record;
  const audit = auditOf({ cases, lists, procedure: procedure!, references: [], seed: 1, resamples: 200 });
  const suggestion = suggestionFor(audit, record);
  const words = suggestionWords(audit, suggestion);
  const { view: pair, marked } = pairView(cases, lists, procedure!, 'fifth');
  const plan = await planSource(
    {
      audit,
      record,
      procedure: procedure!,
      cases,
      stepId: 'fifth',
      guidance: null,
      eyes: null,
      view: null,
      ownReason: null,
      query: '',
    },
    { start: async (input) => startGoal({ ...input, resamples: 20 }), pause: async () => undefined },
  );
  const look = { enough: audit.enough, twoToWatch: audit.twoToWatch, suggestion, words };
  const views: unknown[] = [
    nowView({ ...record, goals: [] }, look),
    words,
    pair,
    stepView(audit, 'fifth', cases, { marked, query: { procedure: null, view: null } }),
    planView(plan!),
  ];
  for (const goal of record.goals) {
    const state = goalReading(record, goal);
    views.push(
      afterView({ state, record, lasting: [], series: seriesOf(record, state), signal: '' }),
      mentorView(
        record,
        goal,
        stretchesToWatch(cases, procedure!, goal.stepId, { kind: 'cannot', why: { code: 'no-other' } }),
      ),
      reportMarkdown(
        goalReport(
          state,
          { ...record, cautions: [], falsePerHundred: 3, lines: goalLines(record, () => null) },
          [],
          [],
        ),
      ),
      practiceMonth(openGoals(record)[0], record, null, '2026-08-01T08:00:00.000Z'),
    );
  }
  return views.flatMap(texts);
}

const texts = (value: unknown): string[] =>
  typeof value === 'string'
    ? [value]
    : typeof value === 'object' && value !== null
      ? Object.values(value).flatMap(texts)
      : [];

/** Sends somebody to a recording. Protected parts are watched by eye, and that there is none may be said. */
const SENT =
  /\bwatch (two|these|this|first|a |the )|\bfilm|\bvideo|look at (this|the) recording|two recordings will|recording of/i;

const filling = () => recordOf(53, {}, { checkpoints: [{ id: 'fold', look: 'The flap lies folded over.' }] });
const outlier = (one: Case): Partial<Case> => ({
  stretches: one.stretches.map((each) => (each.stepId === 'practised' ? { ...each, seconds: 900 } : each)),
});
const records: [string, SurgeonRecord][] = [
  ['a step stands out', oneStandsOut()],
  ['a window that runs', filling()],
  ['a result that was read, with a time far from the others', withResult(changed(recordOf(60, SHORTER), 50, outlier))],
  ['a longer result', withResult(recordOf(60, { change: Math.log(1.4) }))],
];

describe('a record noted by hand', () => {
  it.each(records)('never sends the surgeon to a recording: %s', async (_, record) => {
    expect((await said(byHand(record))).filter((text) => SENT.test(text))).toEqual([]);
  });

  it('is told so where a choice is to be made, and one with recordings is sent to two of them', async () => {
    const record = oneStandsOut();
    expect((await said(record)).join(' ')).toMatch(/Longer is not wrong: watch two recordings before you choose\./);
    const [one, two] = (await Promise.all([byHand(record), record].map(said))).map((all) => all.join(' '));
    expect(one).toContain('noted by hand, these cases have no recordings to watch');
    expect(two).not.toContain('noted by hand, these cases');
    expect((await said(filling())).some((text) => SENT.test(text))).toBe(true);
  });

  it('with two cases that were not noted by hand has two to watch', () => {
    const { cases, lists, procedures } = oneStandsOut();
    const of = (recorded: number) =>
      auditOf({
        cases: cases.map((one, at) => (at < recorded ? one : { ...one, source })),
        lists,
        procedure: procedures[0]!,
        references: [],
        seed: 1,
        resamples: 20,
      }).twoToWatch;
    expect([0, 1, 2].map(of)).toEqual([false, false, true]);
  });
});
