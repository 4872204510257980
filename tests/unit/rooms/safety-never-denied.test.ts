import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess, assessmentText, type Assessment } from '../../../src/lib/assess';
import type { StepAudit } from '../../../src/lib/audit';
import type { Case, Event, SurgeonRecord } from '../../../src/lib/model';
import { afterView } from '../../../src/lib/rooms/after-twenty/after-view';
import { casesView, filterFrom } from '../../../src/lib/rooms/cases/cases-view';
import { stepCounts } from '../../../src/lib/rooms/choose/step-counts';
import { goalReading } from '../../../src/lib/rooms/goals/goal-reading';
import { goalReport, monthReport, reportMarkdown, yearReport } from '../../../src/lib/rooms/report';
import { operation } from '../../made-up/month';
import { recordOf } from '../../made-up/read-month';
import { readingOf } from '../../made-up/reading-of';

/** What no page and no file may say of a set of cases, recounted in a few lines of its own. */
function denials(text: string, cases: readonly Pick<Case, 'events'>[]): string[] {
  const answers = cases.flatMap(({ events }) => (events === null ? [] : [events]));
  const found = (wrong: boolean, pattern: RegExp) => (wrong ? (text.match(pattern) ?? []) : []);
  return [
    ...found(answers.length > 0, /not asked[^.]*/g),
    ...found(
      answers.some((events) => events.length > 0),
      /No event in[^.]*|none in th[^.]*/g,
    ),
    ...found(
      answers.every((events) => events.length > 0),
      /true rate could[^.]*|[Rr]ates up to[^.]*|share of cases with an event/g,
    ),
  ];
}

const tear: Event = {
  kind: 'tear',
  stepId: 'practised',
  serious: true,
  nearMiss: false,
  noticed: 'not-known',
  reviewed: { at: '2026-08-01T08:00:00.000Z', text: 'A wider opening.' },
};
const answer = fc.constantFrom<Case['events']>(
  null,
  [],
  [tear],
  [{ ...tear, stepId: null }],
  [{ ...tear, stepId: 'fifth', serious: false, reviewed: null }],
  [{ ...tear, serious: false, nearMiss: true, reviewed: null }, tear],
);
const procedure = operation;
const month = recordOf(60);

/** Sixty cases, forty of them the baseline: most answered alike, some not. */
const recordWith = (
  baseline: Case['events'],
  window: Case['events'],
  others: [number, Case['events']][],
): SurgeonRecord => {
  const said = new Map(others);
  return {
    ...month,
    procedures: [procedure],
    lists: month.lists.map((list) => ({ ...list, when: { kind: 'date', date: '2026-06-10' } })),
    cases: month.cases.map((one, at) => ({
      ...one,
      events: said.has(at) ? (said.get(at) ?? null) : at < 40 ? baseline : window,
    })),
  };
};
const records = fc
  .tuple(
    fc.constantFrom<Case['events']>(null, []),
    fc.constantFrom<Case['events']>(null, []),
    fc.array(fc.tuple(fc.nat(59), answer), { maxLength: 4 }),
  )
  .map((answers) => recordWith(...answers));
/** The event is in the first case of all, which has no time of the step: the baseline cases begin after it. */
const untimedFirst = recordWith(null, null, [[0, [tear]]]);

describe('safety is never denied and never flattered', () => {
  it('by any page or file, whatever was answered of which cases', () => {
    fc.assert(
      fc.property(records, (record) => {
        const state = goalReading(record, record.goals[0]!);
        const report = { ...record, cautions: [], falsePerHundred: 3, lines: [] };
        const step = { stepId: 'practised', returnedTo: null, waitingPerCase: 0, waitingReason: null } as StepAudit;
        const after = afterView({ state, record, lasting: [], series: null, signal: '' });
        const goal = goalReport(state, report, [], []);
        const ofWindow = [JSON.stringify(after), reportMarkdown(goal), JSON.stringify(goal)];
        const ofAll = [
          monthReport('2026-06', record.goals, report, []),
          yearReport('2026', record.goals, report),
          stepCounts(step, procedure.steps[0]!, record.cases, procedure),
          casesView(record, new Set(), filterFrom(new Map())).rest,
        ].map((each) => JSON.stringify(each));
        ofAll.push(
          reportMarkdown(monthReport('2026-06', record.goals, report, [])),
          reportMarkdown(yearReport('2026', record.goals, report)),
        );
        for (const text of ofWindow) expect(denials(text, state.spanCases)).toEqual([]);
        for (const text of ofAll) expect(denials(text, record.cases)).toEqual([]);
        // What is said of the record is said of all of it.
        if (record.cases.some(({ events }) => events !== null))
          expect([...ofWindow, ...ofAll].join(' ')).not.toMatch(/in this record/);
        // An event at the step is named wherever its goal is reported, be it among the baseline cases.
        const atStep = record.cases.some(({ events }) => events?.some(({ stepId }) => stepId === 'practised'));
        for (const text of [...ofWindow, ...ofAll.slice(0, 2)])
          expect(/posterior capsule tear at practised/i.test(text) || !atStep).toBe(true);
      }),
      { numRuns: 40 },
    );
  });

  it('by the answer of the command line, in print and in JSON', () => {
    fc.assert(
      fc.property(records, fc.boolean(), (made, untimed) => {
        // In some the step with the event is not timed: an event is no time.
        const record = untimed
          ? {
              ...made,
              cases: made.cases.map((one) => ({
                ...one,
                stretches: one.events?.length ? one.stretches.slice(2) : one.stretches,
              })),
            }
          : made;
        const { cases } = record;
        const asked = assess({
          reading: readingOf(record),
          procedures: [procedure],
          guidance: [],
          resamples: 20,
          goal: { step: 'practised', from: cases[40]!.code, window: 20, measure: 'time', chosen: false },
        });
        if (asked.kind === 'cannot') throw new Error(asked.because);
        const [ofRecord = '', ofWindow = ''] = assessmentText(asked).split('Safety in these cases:');
        expect(denials(ofRecord, cases)).toEqual([]);
        if (cases.some(({ events }) => events !== null))
          expect(ofRecord + ofWindow).not.toMatch(/not asked in this record/);
        if (asked.goal?.kind === 'result') {
          expect(denials(ofWindow, cases.slice(40))).toEqual([]);
          const atStep = cases.some(({ events }) => events?.some(({ stepId }) => stepId === 'practised'));
          expect(/posterior capsule tear at practised/i.test(ofWindow) || !atStep).toBe(true);
        }
        for (const { step, events } of JSON.parse(JSON.stringify(asked.assessment)).steps as Assessment['steps']) {
          const done = cases.filter((one) =>
            [...one.stretches, ...(one.events ?? [])].some(({ stepId }) => stepId === step),
          );
          const answers = done.flatMap((one) => (one.events ? [one.events] : []));
          const at = answers.filter((all) => all.some(({ stepId }) => stepId === step)).length;
          expect(events.answered).toBe(answers.length);
          expect(events.n).toBe(answers.length === 0 ? null : at);
          expect(events.may_belong).toBe(
            answers.filter(
              (all) => all.every(({ stepId }) => stepId !== step) && all.some(({ stepId }) => stepId === null),
            ).length,
          );
          // No rate from positives alone, and never one below the share that was seen.
          if (answers.every((all) => all.length > 0)) expect(events.upper95).toBeNull();
          else expect(events.upper95).toBeGreaterThan((at + events.may_belong) / answers.length);
        }
      }),
      { numRuns: 25, examples: [[untimedFirst, true]] },
    );
  });
});
