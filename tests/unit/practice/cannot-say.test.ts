import { describe, expect, it } from 'vitest';
import { changeOf, type ChangeInput } from '../../../src/lib/practice/change';
import { judgeTime } from '../../../src/lib/practice/judge-time';
import { inventedArrays } from './invented-arrays';

const judged = (input: ChangeInput) => judgeTime(input, { selectionAllowance: 0, steer: -0.1, look: 'first' });
const code = (input: ChangeInput) => judged(input).cannot?.code;
const withY = (input: ChangeInput, y: (value: number, step: number, at: number) => number): ChangeInput => ({
  ...input,
  y: input.y.map((row, step) => row.map((value, at) => y(value, step, at))),
});

describe('too little or unsuitable data is an answer, never NaN and never a throw', () => {
  const input = inventedArrays();

  it('says so when one period comes from fewer than three lists', () => {
    const oneList = { ...input, list: input.list.map((list, at) => (input.window[at] === 1 ? 7 + (at % 2) : list)) };
    expect(judged(oneList)).toMatchObject({
      kind: 'cannot-tell',
      against: null,
      cannot: { code: 'few-lists', lists: 2 },
    });
    expect(judged({ ...oneList, listsKnown: false }).against).not.toBeNull();
  });

  it('shows the step alone and claims nothing with fewer than three other steps', () => {
    const few = judged({ ...input, others: [0, 1] });
    expect(few).toMatchObject({ kind: 'cannot-tell', against: null, rest: null, cannot: { code: 'few-other-steps' } });
    expect(few.plain?.estimate).toBeCloseTo(judged(input).plain!.estimate, 12);
  });

  it('claims nothing against the rest with fewer than 12 cases that have one', () => {
    const sparse = withY(input, (value, step, at) =>
      step > 2 && input.window[at] === 1 && at % 2 === 1 ? NaN : value,
    );
    // Of a period: the step itself and at least three others.
    const withRest = (period: number) =>
      [...sparse.window.keys()].filter(
        (at) =>
          sparse.window[at] === period &&
          Number.isFinite(sparse.y[2]?.[at]) &&
          sparse.y.filter((row, step) => step !== 2 && Number.isFinite(row[at])).length >= 3,
      ).length;
    expect(withRest(1)).toBeLessThan(12);
    expect(changeOf(sparse).rest).toMatchObject({
      kind: 'cannot',
      why: { code: 'few-rest-cases', baseline: withRest(0), windows: [withRest(1)] },
    });
    expect(judged(sparse)).toMatchObject({ kind: 'cannot-tell', against: null });
    expect(judged(sparse).plain).not.toBeNull();
  });

  it('leaves an other step out of the rest where a period has fewer than five of it', () => {
    const rare = withY(input, (value, step, at) => (step === 5 && at > 31 ? NaN : value));
    expect(changeOf(rare).restSteps).toEqual([0, 1, 3, 4]);
  });

  it('takes lists of one case as no lists: no design effect, n − p degrees of freedom', () => {
    const single = judged({ ...input, list: Int32Array.from(input.list.keys()) });
    expect(single.plain?.df).toBe(48 - 3);
    expect(single.plain?.method).toContain('design effect 1.00');
  });

  it('says that constant times cannot be compared', () => {
    expect(code(withY(input, (value, step) => (step === 2 ? 4 : value)))).toBe('no-variation');
    const othersConstant = judged(withY(input, (value, step) => (step === 2 ? value : 4)));
    expect(othersConstant).toMatchObject({ kind: 'cannot-tell', against: null, cannot: { code: 'few-other-steps' } });
  });

  it('says that nothing can be compared where the step is in no window case, or in none at all', () => {
    expect(code(withY(input, (value, step, at) => (step === 2 && input.window[at] === 1 ? NaN : value)))).toBe(
      'few-cases',
    );
    expect(code(withY(input, (value, step) => (step === 2 ? NaN : value)))).toBe('few-cases');
    expect(code({ ...input, stepIndex: -1 })).toBe('few-cases');
  });

  it('answers a fact that is not a number with a reason', () => {
    const broken = { ...input, columns: [input.columns[0]!.map((value, at) => (at === 9 ? NaN : value))] };
    expect(code(broken)).toBe('not-a-number');
  });

  it('says so when a fact changes exactly when the window begins', () => {
    const same = { ...input, columns: [Float64Array.from(input.window)] };
    // The indicator is asked first; the fact that says the same is left out, as any collinear column.
    expect(judged(same).against).not.toBeNull();
    expect(judged(same).kind).toBe(judged({ ...input, columns: [] }).kind);
  });

  it('uses fewer facts where the cases do not carry them: 15 + 3 for each', () => {
    const noise = (k: number) => Float64Array.from(input.list, (_, at) => Math.sin((k + 2) * at * at));
    const many = { ...input, columns: [input.columns[0]!, ...Array.from({ length: 20 }, (_, k) => noise(k))] };
    const eleven = { ...input, columns: many.columns.slice(0, 11) };
    expect(judged(many).plain).toEqual(judged(eleven).plain);
  });
});
