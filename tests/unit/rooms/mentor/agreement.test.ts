import { describe, expect, it } from 'vitest';
import type { Goal, MentorForm, MentorReview } from '../../../../src/lib/model';
import { agreementData, agreementLines, agreementOf } from '../../../../src/lib/rooms/mentor/agreement';
import { afterView } from '../../../../src/lib/rooms/after-twenty/after-view';
import { goalReading } from '../../../../src/lib/rooms/goals/goal-reading';
import { goalView } from '../../../../src/lib/rooms/plan/goal-view';
import { goalReport, monthReport, reportMarkdown } from '../../../../src/lib/rooms/report';
import { durationIn } from '../../../../src/lib/words';
import { recordOf } from '../../../made-up/read-month';

const at = '2026-06-01T10:00:00.000Z';
const half = (one: MentorForm['ratings'][number]['anchor'], saw = ''): MentorForm => ({
  at,
  ratings: [
    { checkpointId: 'regrasp', anchor: one },
    { checkpointId: 'deep', anchor: 'each-time' },
  ],
  saw,
});
const review = (over: Partial<MentorReview> = {}): MentorReview => ({
  at,
  caseIds: ['case-1', 'case-2', 'case-3'],
  chosen: 'latest',
  learner: half('each-time', 'My own words.'),
  mentor: half('with-correction', 'Words of the other.'),
  ...over,
});
const checkpoints: Goal['checkpoints'] = [
  { id: 'regrasp', look: 'The flap is taken again near the tearing edge.' },
  { id: 'deep', look: 'The chamber is deep' },
  { id: 'round', look: 'The edge is seen all round.' },
];
const record = (mentorReviews?: MentorReview[]) =>
  recordOf(45, {}, { checkpoints, ...(mentorReviews ? { mentorReviews } : {}) });
const pages = (from: ReturnType<typeof record>) => {
  const goal = from.goals[0]!;
  const state = goalReading(from, goal);
  const report = goalReport(state, { ...from, cautions: [], falsePerHundred: 3, lines: [] }, [], []);
  return {
    report,
    plan: goalView(goal, from).rows.find(({ label }) => label === 'Seen by two'),
    after: afterView({ state, record: from, lasting: [], series: null, signal: '' }).seenByTwo,
  };
};
const lead =
  'Reviewed with a mentor in June 2026: each of the two rated three stretches apart, without times. It is no score.';
const said = (who: string) => [
  `The flap is taken again near the tearing edge. ${who}: seen each time; mentor: seen with correction; watch again.`,
  'The chamber is deep. Both: seen each time.',
  'The edge is seen all round. Both: not rated.',
];

describe('what the two wrote', () => {
  const { report, plan, after } = pages(record([review()]));

  it('stands in words with the goal as it was set, and on After twenty', () => {
    expect(plan?.lines).toEqual([lead, ...said('You')]);
    expect(after?.lead).toBe(lead);
    expect(after?.review.lines.map(({ words }) => words)).toEqual([
      'You: seen each time; mentor: seen with correction; watch again.',
      'Both: seen each time.',
      'Both: not rated.',
    ]);
  });

  it('stands in the report of the goal in words, without what each wrote freely, and as data for JSON', () => {
    expect(report.sections.find(({ heading }) => heading === 'Seen by two')?.lines).toEqual([lead, ...said('Surgeon')]);
    const text = reportMarkdown(report);
    expect(text).toContain('The chamber is deep. Both: seen each time.');
    expect(text + JSON.stringify(report)).not.toMatch(/My own words|Words of the other/);
    expect(report.agreement).toEqual([
      {
        month: '2026-06',
        stretches: 3,
        checkpoints: [
          { look: checkpoints[0]!.look, surgeon: 'each-time', mentor: 'with-correction' },
          { look: checkpoints[1]!.look, surgeon: 'each-time', mentor: 'each-time' },
          { look: checkpoints[2]!.look, surgeon: null, mentor: null },
        ],
      },
    ]);
  });

  it('holds no time, no total and no share', () => {
    const words = agreementLines(agreementOf(record([review()]).goals[0]!)).join(' ');
    expect(durationIn(words)).toBeNull();
    expect(words).not.toMatch(/\b\d+ of \d+|%|\bpoints?\b/);
  });

  it('says where a half was typed again, and how many reviews came before', () => {
    const goal = record([review(), review({ at: '2026-07-02T10:00:00.000Z', caseIds: ['case-4'], typedAgain: true })])
      .goals[0]!;
    const lines = agreementLines(agreementOf(goal));
    expect(lines[0]).toBe(
      'Reviewed with a mentor in July 2026: each of the two rated one stretch apart, without times. It is no score. One earlier review is kept with the goal.',
    );
    expect(lines.at(-1)).toBe('A half was typed again after both had been seen.');
    expect(agreementData(goal).map(({ month }) => month)).toEqual(['2026-07', '2026-06']);
  });
});

describe('a half alone', () => {
  it('is shown nowhere, in no report and in no JSON', () => {
    for (const reviews of [undefined, [], [review({ mentor: null })], [review({ learner: null, mentor: null })]]) {
      const { report, plan, after } = pages(record(reviews));
      expect([plan, after]).toEqual([undefined, null]);
      expect(report.agreement).toEqual([]);
      expect(JSON.stringify(report)).not.toMatch(/Seen by two|each-time|seen each time/);
    }
  });

  it('leaves the full review before it in place', () => {
    const { plan } = pages(record([review(), review({ mentor: null })]));
    expect(plan?.lines[0]).toBe(lead);
  });
});

it('a report of a month holds no agreement', () => {
  const from = record([review()]);
  expect(
    monthReport('2026-06', from.goals, { ...from, cautions: [], falsePerHundred: 3, lines: [] }, []).agreement,
  ).toBeUndefined();
});
