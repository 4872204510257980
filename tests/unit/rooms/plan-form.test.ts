import { describe, expect, it } from 'vitest';
import type { Fields } from '../../../src/lib/rooms/forms/fields';
import { fromHere } from '../../../src/lib/rooms/plan/new-goal';
import { readPlan, type PlanRules } from '../../../src/lib/rooms/plan/plan-form';
import { supervisorAsked } from '../../../src/lib/rooms/plan/supervision';
import { aCase } from '../../made-up/record';

const rules: PlanRules = {
  step: { label: 'Capsulorhexis', protectedParts: [{ id: 'refill', label: 'Chamber refilled' }] },
  offered: ['a', 'b', 'c', 'd'].map((id) => ({ id, look: `look at ${id}` })),
  measures: ['time', 'steadiness', 'checkpoints'],
  cannotMeasure: null,
  supervisorAsked: true,
  chosenBy: 'reference',
};
const good: Fields = {
  checkpoint: ['a', 'b'],
  own: [''],
  measure: ['time'],
  watch: ['refill'],
  window: ['20'],
  ifThen: ['if the edge runs out, then I stop and refill'],
  agreed: ['yes'],
};
const read = (over: Fields = {}, also: Partial<PlanRules> = {}) =>
  readPlan({ ...good, ...over }, { ...rules, ...also });
const refused = (over: Fields, also: Partial<PlanRules> = {}) => {
  const answer = read(over, also);
  return answer.kind === 'errors' ? answer.errors.map(({ field }) => field) : [];
};

describe('the plan form', () => {
  it('takes a whole plan', () => {
    expect(read()).toEqual({
      kind: 'plan',
      plan: {
        checkpoints: [
          { id: 'a', look: 'look at a' },
          { id: 'b', look: 'look at b' },
        ],
        measure: 'time',
        watch: ['refill'],
        windowLength: 20,
        ifThen: 'if the edge runs out, then I stop and refill',
        agreed: { answer: 'yes', why: null },
        reason: null,
      },
    });
  });

  it('takes one of the surgeon’s own among three, and no fourth', () => {
    const answer = read({ own: ['The flap is seen all round'] });
    expect(answer.kind === 'plan' && answer.plan.checkpoints).toHaveLength(3);
    expect(refused({ checkpoint: ['a', 'b', 'c'], own: ['one more'] })).toEqual(['checkpoints']);
    expect(refused({ checkpoint: [] })).toEqual(['checkpoints']);
  });

  it('ignores a checkpoint or a protected part that was not offered', () => {
    expect(refused({ checkpoint: ['elsewhere'] })).toEqual(['checkpoints']);
    expect(refused({ watch: ['elsewhere'] })).toEqual(['watch']);
  });

  it.each([
    ['ifThen', 'if slow, then hurry to 60 s'],
    ['own', 'Done within a minute'],
    ['ifThen', 'then stop at 1:30'],
  ])('refuses a time in %s: %s', (field, text) => {
    const answer = read({ [field]: [text] });
    expect(answer).toMatchObject({ kind: 'errors', errors: [{ field, message: expect.stringContaining('clock') }] });
  });

  it('warns of a person, and believes the writer who says it is none', () => {
    expect(refused({ ifThen: ['if Dr Smith is in, then I ask'] })).toEqual(['ifThen']);
    expect(read({ ifThen: ['if Dr Smith is in, then I ask'], nobody: ['yes'] }).kind).toBe('plan');
  });

  it('measures no time without a protected part to watch, nor what the rules do not offer', () => {
    expect(refused({ watch: [] })).toEqual(['watch']);
    expect(read({ watch: [], measure: ['checkpoints'] }).kind).toBe('plan');
    expect(refused({ measure: ['time'] }, { measures: ['safety'] })).toEqual(['measure']);
    expect(refused({}, { cannotMeasure: '12 cases count; a goal needs 20.' })).toEqual(['measure']);
  });

  it('asks for the supervisor only where there may be one, and for a reason where there is none', () => {
    expect(refused({ agreed: [] })).toEqual(['agreed']);
    expect(refused({ agreed: ['none'] })).toEqual(['why']);
    const alone = read({ agreed: [] }, { supervisorAsked: false });
    expect(alone.kind === 'plan' && alone.plan.agreed).toEqual({ answer: 'none', why: null });
  });

  it('asks for the reason from outside the record where the step was chosen for one', () => {
    expect(refused({}, { chosenBy: 'own' })).toEqual(['reason']);
    expect(read({ reason: ['a course'] }, { chosenBy: 'own' }).kind).toBe('plan');
  });
});

describe('supervision', () => {
  it('is asked for in training, or where other hands were in the latest fifty cases', () => {
    const mine = Array.from({ length: 60 }, (_, index) => aCase(index + 1));
    expect(supervisorAsked(mine, { inTraining: false })).toBeNull();
    expect(supervisorAsked(mine, { inTraining: true })).toBe('You are in training.');
    const shared = mine.map((each) =>
      each.sequence === 55
        ? { ...each, hands: { whole: 'mine' as const, steps: { cortex: 'taken-over' as const } } }
        : each,
    );
    expect(supervisorAsked(shared, { inTraining: null })).toContain('In 1 of your latest 50 cases');
    const old = mine.map((each) =>
      each.sequence === 3 ? { ...each, hands: { whole: 'shared' as const, steps: {} } } : each,
    );
    expect(supervisorAsked(old, { inTraining: false })).toBeNull();
  });
});

describe('where a window begins', () => {
  it('is after the latest case of the procedure, whatever order the record is in', () => {
    const cases = [aCase(2, { listId: 'list-2' }), aCase(9, { procedureId: 'other' }), aCase(1, { listId: 'list-1' })];
    expect(fromHere(cases, 'small')).toEqual({ afterSequence: 2, listAtStart: 'list-2' });
    expect(fromHere([], 'small')).toEqual({ afterSequence: 0, listAtStart: null });
  });
});
