import { describe, expect, it } from 'vitest';
import { lookingBack, type LookingBackInput } from '../../../src/lib/practice';
import { length } from '../../made-up/cases';
import { listsFor, month, operation } from '../../made-up/month';

const ids = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, at) => `case-${from + at}`);
const cases = month(100, { change: Math.log(0.7), from: 50 });
const input: LookingBackInput = {
  cases,
  lists: listsFor(cases),
  procedure: operation,
  earlier: ids(1, 50),
  later: ids(51, 100),
  fixed: true,
};
const code = (more: Partial<LookingBackInput>) => {
  const said = lookingBack({ ...input, ...more });
  return said.kind === 'cannot' ? said.why.code : said.kind;
};
const middle = (values: number[]) => {
  const sorted = values.sort((a, b) => a - b);
  return (sorted[sorted.length / 2 - 1]! + sorted[sorted.length / 2]!) / 2;
};

describe('looking back on two stretches of a record', () => {
  it('names the step that changed, with the medians as recorded, and no other', () => {
    const said = lookingBack(input);
    if (said.kind !== 'compared') throw new Error(said.why.code);
    expect(said.steps.filter(({ compared }) => compared.kind !== 'not-clear').map(({ stepId }) => stepId)).toEqual([
      'practised',
    ]);
    expect(said.whole.kind).toBe('not-clear');
    const practised = said.steps.find(({ stepId }) => stepId === 'practised')!;
    const recorded = (of: typeof cases) =>
      middle(of.map((one) => one.stretches.find(({ stepId }) => stepId === 'practised')!.seconds));
    expect(practised.earlier).toEqual({ n: 50, median: expect.closeTo(recorded(cases.slice(0, 50)), 9) as number });
    expect(practised.later).toEqual({ n: 50, median: expect.closeTo(recorded(cases.slice(50)), 9) as number });
    if (practised.compared.kind !== 'shorter') throw new Error('not found');
    const { effect } = practised.compared;
    expect(effect.low).toBeLessThan(Math.log(0.7));
    expect(effect.high).toBeGreaterThan(Math.log(0.7));
    expect(effect).toMatchObject({ nBaseline: 50, nWindow: 50 });
    expect([said.earlier.lists, said.later.lists]).toEqual([10, 10]);
  });

  it('asks more of a date chosen freely', () => {
    const level = (fixed: boolean) => {
      const said = lookingBack({ ...input, fixed });
      return said.kind === 'compared' ? said.alpha : null;
    };
    expect([level(true), level(false)]).toEqual([0.05, 0.005]);
  });

  it('needs twenty cases over four lists in each, thirty where lists are not known', () => {
    expect(code({ later: ids(51, 69) })).toBe('few-cases');
    expect(code({ later: ids(51, 70) })).toBe('compared');
    const long = listsFor(cases).slice(0, 3);
    const threeLists = cases.map((one, at) => (at < 50 ? one : { ...one, listId: `list-${11 + (at % 3)}` }));
    expect(code({ cases: threeLists, lists: [...listsFor(cases), ...long] })).toBe('few-lists');
    const without = month(100, { lists: false });
    expect(code({ cases: without, lists: [], later: ids(51, 79) })).toBe('few-cases');
    expect(code({ cases: without, lists: [], later: ids(51, 80) })).toBe('compared');
  });

  it('counts what does not count, and compares no case with itself', () => {
    const someOut = cases.map((one, at) =>
      at < 35 ? { ...one, leftOut: { reason: 'other' as const, timesSeen: false, at: '2026-01-01T10:00:00Z' } } : one,
    );
    const said = lookingBack({ ...input, cases: someOut });
    expect(said).toMatchObject({
      kind: 'cannot',
      why: { code: 'few-cases', needed: 20, listsKnown: true, earlier: 15, later: 50 },
      earlier: { notCounted: 35 },
    });
    expect(code({ later: ids(50, 100) })).toBe('in-both');
    expect(code({ later: ids(200, 260) })).toBe('few-cases');
  });

  it('compares a step only where it was done in twenty cases of both, and goes on with the others', () => {
    const rare = cases.map((one, at) =>
      at >= 69 ? { ...one, stretches: one.stretches.filter(({ stepId }) => stepId !== 'third') } : one,
    );
    const said = lookingBack({ ...input, cases: rare });
    if (said.kind !== 'compared') throw new Error(said.why.code);
    const third = said.steps.find(({ stepId }) => stepId === 'third')!;
    expect(third).toMatchObject({
      later: { n: 19 },
      compared: { kind: 'cannot', why: { code: 'few-cases', needed: 20 } },
    });
    expect(said.steps.filter(({ compared }) => compared.kind === 'cannot')).toHaveLength(1);
  });

  it('gives a reason instead of a number for times and facts that are none', () => {
    const broken = cases.map((one, at) => (at === 3 ? { ...one, facts: { dense: NaN } } : one));
    expect(code({ cases: broken })).toBe('not-a-number');
    const same = cases.map((one) => ({ ...one, stretches: one.stretches.map(({ stepId }) => length(stepId, 40)) }));
    const said = lookingBack({ ...input, cases: same });
    expect(JSON.stringify(said)).not.toContain('null,"p"');
    if (said.kind === 'compared') expect(said.steps.every(({ compared }) => compared.kind === 'cannot')).toBe(true);
  });
});
