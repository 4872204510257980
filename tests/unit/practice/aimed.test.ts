import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { aimedEyesOf } from '../../../src/lib/audit';
import { lastingFor, paceOf, resultFor, startGoal, windowOf, type ResultInput } from '../../../src/lib/practice';
import { excessOf, judgeAimed } from '../../../src/lib/practice/judge-aimed';
import { goalSchema, outcomeSchema, type Case } from '../../../src/lib/model';
import { listRecord } from '../../made-up/cases';
import { inventedArrays } from './invented-arrays';
import { goalAfter, listsFor, month, operation } from '../../made-up/month';
import { goalAsked } from '../../made-up/goal-on';

const eyes = aimedEyesOf(operation, 'dense', 'yes')!;
const dense = (one: Case) => one.facts.dense === true;
const FROM = 120;
const record = month(260, { from: FROM, change: Math.log(0.7) });

function begun(cases: readonly Case[], over: { measure?: 'time' | 'checkpoints'; eyes?: typeof eyes } = {}) {
  return startGoal(goalAsked(cases, { seed: 5, from: FROM + 1, eyes, ...over }));
}

const start = begun(record);
if (start.kind !== 'start') throw new Error(start.why.code);
const goal = goalAfter(FROM, { eyes, baseline: start.baseline });
const { windows } = windowOf(goal, record, listsFor(record), operation);

const asked = (cases: readonly Case[], over: Partial<ResultInput> = {}): ResultInput => ({
  cases,
  lists: listsFor(cases),
  procedure: operation,
  baseline: start.baseline,
  windowIds: windows[0]!,
  stepId: 'practised',
  measure: 'time',
  eyes,
  look: 'first',
  seed: 1,
  ...over,
});
const span = (ids: readonly string[]) => {
  const numbers = ids.map((id) => Number(id.split('-')[1]));
  return record.slice(Math.min(...numbers) - 1, Math.max(...numbers));
};

describe('a kind of eye a goal is aimed at', () => {
  it('is a level of a fact, or levels together; nothing else', () => {
    expect(eyes).toEqual({ fact: 'dense', level: 'yes', label: 'dense' });
    expect(aimedEyesOf(operation, 'dense', 'true')).toEqual(eyes);
    expect(aimedEyesOf(operation, 'dense', 'perhaps')).toBeNull();
    expect(aimedEyesOf(operation, 'nothing', 'yes')).toBeNull();
  });

  it('is missing in goals and results of before, which load as they were', () => {
    expect(goalSchema.parse(goalAfter(40)).eyes).toBeUndefined();
    const { aimed, ...before } = resultFor(asked(record));
    expect(aimed?.eyes).toEqual(eyes);
    expect(outcomeSchema.parse(before).aimed).toBeUndefined();
    expect(goalSchema.parse(goal).eyes).toEqual(eyes);
  });
});

describe('a goal aimed at certain eyes', () => {
  it('has baseline cases and windows of those eyes alone', () => {
    const all = [...start.baseline.caseIds, ...windows.flat()].map((id) => record.find((one) => one.id === id)!);
    expect(all.length).toBeGreaterThan(50);
    expect(all.every(dense)).toBe(true);
    expect(start.baseline.caseIds).toHaveLength(record.slice(0, FROM).filter(dense).length);
    expect(windows[0]).toHaveLength(20);
  });

  it('finds a change in them, and says what became of the other eyes beside it', () => {
    const outcome = resultFor(asked(record));
    expect(outcome.kind).toBe('shorter');
    expect(outcome.against).toMatchObject({ nBaseline: start.baseline.caseIds.length, nWindow: 20 });
    expect(Math.exp(outcome.aimed!.otherEyes!.estimate)).toBeCloseTo(0.7, 1);
    expect(outcome.aimed!.window).toEqual({ such: 20, of: span(windows[0]!).length });
  });

  it('lets other eyes enter no fit', () => {
    const whole = { ...asked(record), measure: 'steadiness' as const, permutations: 99 };
    const judged = (cases: readonly Case[]) => {
      const { aimed, ...rest } = resultFor({ ...whole, cases });
      return { ...rest, aimed: { ...aimed, otherEyes: null } };
    };
    const lasting = (cases: readonly Case[]) => lastingFor({ ...asked(cases), windows });
    const [before, beforeLasting] = [judged(record), lasting(record)];
    expect(beforeLasting.length).toBeGreaterThan(0);
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0.2, max: 5, noNaN: true }), { minLength: 20, maxLength: 20 }), (times) => {
        const other = record.map((one, at) =>
          dense(one)
            ? one
            : {
                ...one,
                stretches: one.stretches.map((each, step) => ({
                  ...each,
                  seconds: each.seconds * times[(7 * at + step) % 20]!,
                })),
              },
        );
        expect(judged(other)).toEqual(before);
        expect(lasting(other)).toEqual(beforeLasting);
        const again = begun(other);
        expect(again.kind === 'start' && again.baseline).toEqual(start.baseline);
      }),
      { numRuns: 15, seed: 3 },
    );
  });

  it('asks safety of every case of the period, whatever its eyes', () => {
    const other = span(windows[0]!).find((one) => !dense(one))!;
    const serious = { kind: 'tear', stepId: 'practised', serious: true, nearMiss: false, noticed: 'during' as const };
    const with_ = record.map((one) => (one === other ? { ...one, events: [{ ...serious, reviewed: null }] } : one));
    expect(resultFor(asked(with_ as Case[])).kind).toBe('paused');
  });

  it('counts a left-out case only if it has those eyes', () => {
    const leftOut = { reason: 'other' as const, timesSeen: true, at: '2026-06-01T10:00:00Z' };
    const out = (wanted: boolean) => {
      const gone = span(windows[0]!).find((one) => dense(one) === wanted)!;
      return resultFor(asked(record.map((one) => (one === gone ? { ...one, leftOut } : one)))).leftOutSeen;
    };
    expect([out(true), out(false)]).toEqual([1, 0]);
  });
});

describe('bad input for an aimed goal', () => {
  it('a fact that only two cases have: only the checkpoints can be measured', () => {
    const two = record.map((one, at) => ({ ...one, facts: { dense: at === 3 || at === 50 } }));
    expect(begun(two)).toMatchObject({
      kind: 'cannot',
      why: { code: 'few-cases', counted: 2, needed: 20, eyes: 'dense', since: false },
    });
    const checkpoints = begun(two, { measure: 'checkpoints' });
    expect(checkpoints).toMatchObject({ kind: 'start', cases: 2, power: null });
  });

  it('a fact changed after times were seen is counted beside the result', () => {
    const at = '2026-06-01T10:00:00Z';
    const changed = record.map((one) =>
      one.id === windows[0]![2] ? { ...one, factChanges: [{ factId: 'dense', before: false, after: true, at }] } : one,
    );
    expect(resultFor(asked(changed)).aimed!.changedLate).toBe(1);
    expect(resultFor(asked(record)).aimed!.changedLate).toBe(0);
  });

  it('a fact retired from the procedure: what was entered is still read, new cases do not count', () => {
    const without = { ...operation, facts: [] };
    expect(windowOf(goal, record, listsFor(record), without).windows).toEqual(windows);
    expect(resultFor(asked(record, { procedure: without })).against).toEqual(resultFor(asked(record)).against);
    const blank = record.map((one, at) => (at < FROM ? one : { ...one, facts: {} }));
    expect(windowOf(goal, blank, listsFor(blank), without)).toMatchObject({ counted: [], full: false });
  });
});

describe('such eyes more often in the window', () => {
  it('is said only where it is clear', () => {
    // 10 of 22 against 25 of 100, by hand: 0.2045 / √(0.2869 · 0.7131 · (1/100 + 1/22)) = 1.92; 10 − 0.25 · 22 = 4.5.
    expect(excessOf({ such: 25, of: 100 }, { such: 10, of: 22 })).toBe(5);
    expect(excessOf({ such: 25, of: 100 }, { such: 8, of: 22 })).toBe(0);
    expect(excessOf({ such: 25, of: 100 }, { such: 2, of: 22 })).toBe(0);
    expect(excessOf({ such: 0, of: 0 }, { such: 8, of: 22 })).toBe(0);
  });

  it('takes a shorter that rests on the shortest of them back', () => {
    const made = inventedArrays();
    // A step alone, a fifth off, the rest as it was.
    const y = made.y.map((row, step) =>
      row.map((value, at) => value - (made.window[at] === 1 ? Math.log(0.85) - (step === 2 ? 0.07 : 0) : 0)),
    );
    const input = { ...made, y };
    const judged = { selectionAllowance: 0, steer: null, look: 'first' as const };
    const held = judgeAimed(input, judged, 0);
    expect(held).toMatchObject({ withoutExcess: false, time: { kind: 'shorter' } });
    const bounded = judgeAimed(input, judged, 8);
    expect(bounded.withoutExcess).toBe(true);
    expect(bounded.time.kind).not.toBe('shorter');
    expect(bounded.time.against!.nWindow).toBe(held.time.against!.nWindow - 8);
    expect(bounded.time.against!.estimate).toBeGreaterThan(held.time.against!.estimate);
  });
});

describe('how long the window of an aimed goal takes', () => {
  const cases = month(50).map((one, at) => ({ ...one, facts: { dense: at % 5 === 0 } }));
  const dated = listsFor(cases).map((list, at) =>
    listRecord(at + 1, {
      when: { kind: 'date', date: new Date(Date.UTC(2026, 0, 1 + 14 * at)).toISOString().slice(0, 10) },
    }),
  );

  it('is read from the rate of the lists', () => {
    // One such eye a list of five, a list a fortnight: twenty of them take 20 lists and 280 days.
    expect(paceOf(cases, dated, eyes, 20)).toEqual({ length: 20, such: 10, of: 50, lists: 20, days: 280 });
  });

  it('is left open where lists are not known, not dated, or hold no such eye', () => {
    expect(paceOf(month(50, { lists: false }), [], eyes, 20)).toMatchObject({ lists: null, days: null });
    expect(paceOf(cases, listsFor(cases), eyes, 20)).toMatchObject({ lists: 20, days: null });
    const none = cases.map((one) => ({ ...one, facts: { dense: false } }));
    expect(paceOf(none, dated, eyes, 20)).toEqual({ length: 20, such: 0, of: 50, lists: null, days: null });
  });
});
