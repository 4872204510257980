import { describe, expect, it } from 'vitest';
import {
  hashOfCases,
  resultFor,
  startGoal,
  startGoalInSlices,
  startsAfter,
  type StartGoalInput,
} from '../../../src/lib/practice';
import { median, quantile, randomStream } from '../../../src/lib/statistics';
import { fact } from '../../made-up/cases';
import { referenceOf } from '../../bench/simulated-record';
import { month, operation } from '../../made-up/month';
import { goalAsked } from '../../made-up/goal-on';

const asked = (cases: ReturnType<typeof month>, over: Partial<StartGoalInput> = {}) =>
  goalAsked(cases, { chosenBy: 'seconds', seed: 5, resamples: 200, ...over });
const started = (input: StartGoalInput) => {
  const goal = startGoal(input);
  if (goal.kind === 'cannot') throw new Error(goal.why.code);
  return goal;
};

describe('baseline cases', () => {
  it('are the latest eighty counted, fixed by id', () => {
    const goal = started(asked(month(120)));
    expect(goal.baseline.caseIds).toHaveLength(80);
    expect(goal.baseline.caseIds[0]).toBe('case-41');
    expect(goal).toMatchObject({ cases: 80, lists: 16, falling: false });
  });

  it('are the latest forty where the step was already getting shorter', () => {
    const learning = month(100).map((one, at) => ({
      ...one,
      stretches: one.stretches.map((each) =>
        each.stepId === 'practised' ? { ...each, seconds: each.seconds * Math.exp(-0.01 * at) } : each,
      ),
    }));
    const goal = started(asked(learning));
    expect(goal.falling).toBe(true);
    expect(goal.baseline.caseIds[0]).toBe('case-61');
    expect(goal.caveats).toContainEqual({ code: 'already-shorter', latest: 40 });
  });

  it('need twenty, from three lists', () => {
    expect(startGoal(asked(month(19)))).toEqual({
      kind: 'cannot',
      why: { code: 'few-cases', counted: 19, needed: 20, eyes: null, since: false },
    });
    expect(startGoal(asked(month(20, { listSize: 10 })))).toMatchObject({
      kind: 'cannot',
      why: { code: 'few-lists', lists: 2, needed: 3 },
    });
    expect(started(asked(month(20))).cases).toBe(20);
    expect(startGoal(asked([]))).toMatchObject({ kind: 'cannot', why: { code: 'few-cases' } });
  });

  it('end before a case, or begin with one, when asked to', () => {
    expect(started(asked(month(60), { from: 41 })).baseline.caseIds.at(-1)).toBe('case-40');
    expect(started(asked(month(60), { notBefore: 31 })).baseline.caseIds[0]).toBe('case-31');
  });

  it('cannot be parted into before and after where the order is not known; a goal from now on can start', () => {
    const shuffled = month(60).map((one) => ({ ...one, orderKnown: false }));
    expect(startGoal(asked(shuffled, { from: 41 }))).toMatchObject({ kind: 'cannot', why: { code: 'order-unknown' } });
    expect(started(asked(shuffled)).caveats).toContainEqual({ code: 'order-unknown' });
  });

  it('are refused for a step nobody knows, and for times all the same', () => {
    expect(startGoal(asked(month(40), { stepId: 'tenth' }))).toMatchObject({
      kind: 'cannot',
      why: { code: 'unknown-step' },
    });
    const same = month(40).map((one) => ({
      ...one,
      stretches: one.stretches.map((each) => (each.stepId === 'practised' ? { ...each, seconds: 30 } : each)),
    }));
    expect(startGoal(asked(same))).toMatchObject({ kind: 'cannot', why: { code: 'no-variation' } });
  });
});

describe('what is fixed with them', () => {
  it('expected range: half-way between the 20th percentile and the median, to the median, adjusted for the eye', () => {
    const cases = month(40).map((one) => ({ ...one, facts: {} }));
    const goal = started(asked(cases));
    const seconds = cases.map((one) => one.stretches.find(({ stepId }) => stepId === 'practised')!.seconds);
    const usual = median(seconds);
    const fifth = quantile(seconds, 0.2);
    expect(goal.expectedRange!.high).toBeCloseTo(usual, 9);
    expect(goal.expectedRange!.low).toBeCloseTo((usual + fifth) / 2, 9);
    expect(goal.baseline.steer).toBeCloseTo(Math.log((usual + fifth) / 2 / usual), 9);
    expect(goal.baseline.frozen).toMatchObject({ median: usual, p20: fifth, columns: [] });
  });

  it('the columns and coefficients of the facts: near the truth of 0.25', () => {
    const { frozen } = started(asked(month(80))).baseline;
    expect(frozen!.columns).toHaveLength(1);
    expect(frozen!.coefficients[0]!).toBeGreaterThan(0.1);
    expect(frozen!.coefficients[0]!).toBeLessThan(0.4);
  });

  it('columns for as many facts as baseline cases and planned window carry together, so that the result can use them', () => {
    // 15 + 3p: 20 cases carry one column, 40 carry eight.
    const facts = ['a', 'b', 'c', 'd', 'e', 'f'];
    const known = { ...operation, facts: facts.map((id) => fact(id, 'yes-no')) };
    const stream = randomStream(31, 4);
    const cases = month(40, { from: 20, change: Math.log(0.8), sd: 0.1 }).map((one) => {
      const values = Object.fromEntries(facts.map((id) => [id, stream.uniform() < 0.4]));
      const longer = Math.exp(0.2 * Object.values(values).filter(Boolean).length);
      return {
        ...one,
        facts: values,
        stretches: one.stretches.map((each) => ({ ...each, seconds: each.seconds * longer })),
      };
    });
    const input = asked(cases, { from: 21 });
    const { baseline } = started({ ...input, procedure: known });
    expect(baseline.caseIds).toHaveLength(20);
    expect(baseline.frozen!.columns).toHaveLength(6);
    // Nothing but the first can be told from the baseline cases alone.
    expect(baseline.frozen!.coefficients.slice(1)).toEqual([0, 0, 0, 0, 0]);
    const outcome = resultFor({
      cases,
      lists: input.lists,
      procedure: known,
      baseline,
      windowIds: cases.slice(20).map(({ id }) => id),
      stepId: 'practised',
      measure: 'time',
      look: 'first',
      seed: 1,
    });
    const few = resultFor({
      cases,
      lists: input.lists,
      procedure: known,
      baseline: { ...baseline, frozen: { ...baseline.frozen!, columns: baseline.frozen!.columns.slice(0, 1) } },
      windowIds: cases.slice(20).map(({ id }) => id),
      stepId: 'practised',
      measure: 'time',
      look: 'first',
      seed: 1,
    });
    expect(outcome.plain!.se).toBeLessThan(0.8 * few.plain!.se);
    expect(outcome.plain!.low).toBeLessThan(Math.log(0.8));
    expect(outcome.plain!.high).toBeGreaterThan(Math.log(0.8));
  });

  it('an allowance for a step taken from a view, none for an own reason or for safety', () => {
    const cases = month(40);
    const reference = {
      ...referenceOf({ cases: 20, usual: [] }, 1),
      procedureId: operation.id,
      cases: cases.map((one, at) => ({
        reader: 'R1',
        list: Math.floor(at / 5),
        facts: one.facts,
        stepSeconds: Object.fromEntries(one.stretches.map(({ stepId, seconds }) => [stepId!, seconds])),
      })),
    };
    const by = (chosenBy: StartGoalInput['chosenBy']) =>
      started(asked(cases, { chosenBy, references: [reference] })).baseline;
    expect(by('seconds').selectionAllowance).toBeGreaterThanOrEqual(0);
    expect(by('reference').selectionAllowance).toBeGreaterThan(0);
    expect(by('own')).toMatchObject({ selectionAllowance: 0, selectionAllowanceSpread: 0 });
    expect(started(asked(cases, { measure: 'safety' })).baseline.selectionAllowance).toBe(0);
    // Without a reference set there was nothing to choose by.
    expect(started(asked(cases, { chosenBy: 'reference' })).baseline.selectionAllowance).toBe(0);
  });

  it('the same for one seed; a fingerprint that a changed time changes and a review does not', () => {
    const cases = month(40);
    expect(started(asked(cases)).baseline).toEqual(started(asked([...cases].reverse())).baseline);
    const later = cases.map((one, at) => (at === 3 ? { ...one, events: null, version: 2 } : one));
    const changed = cases.map((one, at) => (at === 3 ? { ...one, stretches: one.stretches.slice(1) } : one));
    expect(hashOfCases(later)).toBe(hashOfCases(cases));
    expect(hashOfCases(changed)).not.toBe(hashOfCases(cases));
  });

  it('what twenty and forty can show: more for a fifth than a tenth, more in forty, in a range', () => {
    const { power } = started(asked(month(40), { chosenBy: 'own' }));
    const { fifth, tenth, steer } = power!;
    expect(fifth.twenty.chance).toBeGreaterThan(tenth.twenty.chance);
    expect(fifth.forty.chance).toBeGreaterThan(fifth.twenty.chance);
    expect(fifth.twenty.low).toBeLessThan(fifth.twenty.chance);
    expect(fifth.twenty.high).toBeGreaterThan(fifth.twenty.chance);
    expect(fifth.twenty.tenths).toBe(Math.round(10 * fifth.twenty.chance));
    expect(steer).not.toBeNull();
    expect(power!.coarse).toBe(false);
    expect(started(asked(month(39))).power!.coarse).toBe(true);
  });
});

describe('in slices', () => {
  it('gives the same, and lets others have their turn', async () => {
    let pauses = 0;
    const input = asked(month(60));
    const slowly = await startGoalInSlices(input, {
      pause: () => {
        pauses += 1;
        return Promise.resolve();
      },
    });
    expect(slowly).toEqual(startGoal(input));
    // Once before the resamples, once in fifty of 200, and while it is looked at what goes with the eye.
    expect(pauses).toBeGreaterThanOrEqual(5 + operation.steps.length);
  });
});

describe('a new goal on a step that changed', () => {
  it('starts with the window that changed', () => {
    const cases = month(80);
    const outcome = (kind: string) =>
      ({ goalId: 'goal-1', stepId: 'practised', windowIds: ['case-41', 'case-42'], outcome: { kind } }) as never;
    const goals = [{ id: 'goal-1', procedureId: operation.id }];
    expect(startsAfter('practised', operation.id, goals, [outcome('shorter')], cases)).toBe(41);
    expect(startsAfter('practised', operation.id, goals, [outcome('cannot-tell')], cases)).toBeNull();
    expect(startsAfter('third', operation.id, goals, [outcome('shorter')], cases)).toBeNull();
    expect(startsAfter('practised', 'other', goals, [outcome('shorter')], cases)).toBeNull();
  });
});
