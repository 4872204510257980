import { describe, expect, it } from 'vitest';
import { lastResult } from '../../../src/lib/rooms/now/last-result';
import { whatWaits } from '../../../src/lib/rooms/now/what-waits';
import type { Case, Reflection, SurgeonRecord } from '../../../src/lib/model';
import { codesWords } from '../../../src/lib/words';
import { aGoal, aRecord, casesInLists } from '../../made-up/record';
import { plainOutcome, plainReflection } from '../../made-up/plain';

const NOTHING = { note: false, timings: [] };

const facts = (one: Case): Case => ({ ...one, facts: { nucleus: 'soft' } });
const answersTo = (cases: readonly Case[]): Reflection => ({
  id: 'reflection-1',
  at: '2026-06-01T10:00:00.000Z',
  caseIds: cases.map(({ id }) => id),
  goalId: 'goal-1',
  stepId: 'capsulorhexis',
  ...plainReflection(),
  answers: cases.map(({ id }) => ({ caseId: id, checkpointId: 'regrasp', answer: 'done' })),
});

/** 40 baseline cases, their nucleus known, then two lists of five; `change` works on those ten. */
function record(change: (one: Case, index: number) => Case, reviewed = 0): SurgeonRecord {
  const { cases, lists } = casesInLists(50, 5);
  const all = cases.map(facts).map((one, index) => (index < 40 ? one : change(one, index - 40)));
  return aRecord({ cases: all, lists, goals: [aGoal(40)], reflections: [answersTo(all.slice(40, 40 + reviewed))] });
}

describe('what waits, each as a link that does it', () => {
  it('nothing, where everything was answered', () => {
    expect(
      whatWaits(
        record((one) => one, 10),
        NOTHING,
      ),
    ).toEqual([]);
  });

  it('cases to review: a list at a time, the latest first, each leading to the form with its cases in it', () => {
    expect(
      whatWaits(
        record((one) => one, 3),
        NOTHING,
      ),
    ).toEqual([
      {
        words: 'Review A46, A47, A48, A49, A50',
        href: '/reflect/new?case=case-46&case=case-47&case=case-48&case=case-49&case=case-50',
      },
      { words: 'Review A44, A45', href: '/reflect/new?case=case-44&case=case-45' },
    ]);
  });

  it('events not answered and a fact that is missing lead to the list they can be answered on', () => {
    const gaps = record((one, at) => {
      if (at === 1) return { ...one, events: null };
      return at === 7 ? { ...one, facts: {} } : one;
    }, 10);
    expect(whatWaits(gaps, NOTHING)).toEqual([
      { words: 'Answer events for A42', href: `/cases/lists/${gaps.cases[41]?.listId}` },
      { words: 'Complete the facts of the eye: A48 (nucleus)', href: `/cases/lists/${gaps.cases[47]?.listId}` },
    ]);
  });

  it('facts missing on several lists are one line that counts the others', () => {
    const gaps = record((one, at) => ([0, 2, 7].includes(at) ? { ...one, facts: {} } : one), 10);
    expect(whatWaits(gaps, NOTHING)).toEqual([
      {
        words: 'Complete the facts of the eye: A48 (nucleus); then in 2 cases of earlier lists',
        href: `/cases/lists/${gaps.cases[47]?.listId}`,
      },
    ]);
  });

  it('a fact that the baseline has in too few cases to be used is not asked for', () => {
    const gaps = record((one, at) => (at === 7 ? { ...one, facts: {} } : one), 10);
    const rarely = { ...gaps, cases: gaps.cases.map((one, at) => (at < 25 ? { ...one, facts: {} } : one)) };
    expect(whatWaits(rarely, NOTHING)).toEqual([]);
  });

  it('serious events after the one that Now leads to, a note and a timing that were begun', () => {
    const event = { kind: 'tear', stepId: null, serious: true, when: 'during', note: null, reviewed: null } as const;
    const torn = record((one, at) => (at === 2 || at === 8 ? { ...one, events: [event] as never } : one), 10);
    expect(whatWaits(torn, { note: true, timings: ['F 9'] })).toEqual([
      { words: 'Review the event: posterior capsule tear, case A43', href: '/cases/case-43#events' },
      { words: 'Go on with the note you began', href: '/reflect/new?draft=yes' },
      { words: 'Go on timing F 9', href: '/cases/time?code=F+9' },
    ]);
  });

  it('many codes stay one line, and say how many more there are', () => {
    expect(codesWords(['A1', 'A2', 'A3'], 2)).toBe('A1, A2 and 1 more');
    expect(codesWords(['A1', 'A2'], 2)).toBe('A1, A2');
  });
});

const effect = {
  estimate: -0.2,
  low: -0.3,
  high: -0.1,
  rawEstimate: -0.2,
  rawLow: -0.3,
  rawHigh: -0.1,
  se: 0.05,
  df: 10,
  nBaseline: 40,
  nWindow: 20,
  method: 'test',
};

describe('the last result', () => {
  const stored = (goalId: string, storedAt: string) => ({
    id: `result-${goalId}`,
    goalId,
    look: 'first' as const,
    storedAt,
    inputHash: 'x',
    baselineIds: [],
    windowIds: Array.from({ length: 20 }, (_, at) => `case-${at + 41}`),
    stepId: 'capsulorhexis',
    seed: 1,
    engine: 'test',
    outcome: plainOutcome(),
  });

  it('none before there is one', () => {
    expect(lastResult(record((one) => one))).toBeNull();
  });

  it('the one read last, however the goals stand in the record, in words, with the day it was read', () => {
    const base = aRecord({
      ...casesInLists(60, 5),
      goals: [aGoal(40, { id: 'goal-2' }), aGoal(40)],
      results: [stored('goal-2', '2026-08-04T10:00:00.000Z'), stored('goal-1', '2026-07-01T10:00:00.000Z')],
    });
    const last = lastResult(base);
    expect(last).toMatchObject({ step: 'Capsulorhexis', href: '/after-twenty/goal-2' });
    const read = (nth: number, kind: 'lasted' | 'not-clear') => ({
      ...base,
      results: base.results.map((each) => ({
        ...each,
        lasted: [
          {
            at: '2026-10-27T10:00:00.000Z',
            lasting: {
              nth,
              kind,
              effect,
              firstEstimate: 0,
              together: null,
            },
          },
        ],
      })),
    });
    expect(lastResult(read(1, 'lasted'))?.words).toMatch(
      /\. In the following twenty: lasted\. Read on 27 October 2026\.$/,
    );
    expect(lastResult(read(2, 'not-clear'))?.words).toContain('. In the second following twenty: not clear yet. Read');
    expect(last?.words).toMatch(/^, set on \d+ \w+ 2026, 20 cases: \S.*\. Read on 4 August 2026\.$/);
  });
});
