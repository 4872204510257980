import { describe, expect, it } from 'vitest';
import { assess, type AssessInput } from '../../../src/lib/assess';
import { outcomeSchema, type Outcome } from '../../../src/lib/model';
import {
  lastingFor,
  notANumber,
  resultFor,
  startGoal,
  type ResultInput,
  type StartGoalInput,
} from '../../../src/lib/practice';
import { referenceOf } from '../../bench/simulated-record';
import { listsFor, month, operation } from '../../made-up/month';

type Path = readonly (string | number)[];

/** Where numbers stand in a value; of rows only the first, a middle and the last item are walked. */
function numberPaths(value: unknown, path: Path = []): Path[] {
  if (typeof value === 'number') return [path];
  if (Array.isArray(value)) {
    const some = new Set([0, value.length >> 1, value.length - 1]);
    return value.flatMap((item: unknown, at) => (some.has(at) ? numberPaths(item, [...path, at]) : []));
  }
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, item]) => numberPaths(item, [...path, key]));
}

function put<Value>(value: Value, [key, ...rest]: Path, broken: number): Value {
  if (key === undefined) return broken as Value;
  const copy = (Array.isArray(value) ? [...(value as unknown[])] : { ...value }) as Record<string | number, unknown>;
  copy[key] = put(copy[key], rest, broken);
  return copy as Value;
}

/** JSON writes what is no number as null; this tells where one stands. */
const notNumbers = (value: unknown): Path[] =>
  numberPaths(value).filter(
    (path) => !Number.isFinite(path.reduce<unknown>((at, key) => (at as Record<string | number, unknown>)[key], value)),
  );

const cases = month(60, { change: Math.log(0.8) }).map((one, at) => ({
  ...one,
  facts: { ...one.facts, depth: 3 + (at % 7) / 10 },
}));
const procedure = {
  ...operation,
  facts: [
    ...operation.facts,
    { id: 'depth', label: 'Depth', kind: 'number' as const, unit: 'mm', synonyms: [], asked: 'row' as const },
  ],
};
const lists = listsFor(cases).map((list) => ({ ...list, operated: 6 }));
const goal: StartGoalInput = {
  cases,
  lists,
  procedure,
  references: [referenceOf({ cases: 20, usual: [30, 40, 50] }, 7)],
  stepId: 'practised',
  measure: 'time',
  chosenBy: 'seconds',
  seed: 1,
  engine: 'test',
  from: 41,
  resamples: 20,
};
const started = startGoal(goal);
if (started.kind === 'cannot') throw new Error(started.why.code);
const result: ResultInput = {
  cases,
  lists,
  procedure,
  baseline: started.baseline,
  windowIds: cases.slice(40).map(({ id }) => id),
  stepId: 'practised',
  measure: 'steadiness',
  look: 'first',
  seed: 1,
  permutations: 99,
  seriousRate: { rate: 0.02, source: 'test' },
  casesBefore: 100,
};
const reading = {
  cases: cases.map(({ listId, ...one }, at) => ({ ...one, list: listId, row: at + 2 })),
  lists: lists.map(({ id, ...list }) => ({ ...list, key: id })),
  references: [],
  procedureId: procedure.id,
  problems: [],
};
const audit: AssessInput = {
  reading,
  procedures: [procedure],
  guidance: [],
  seed: 1,
  resamples: 20,
  goal: { step: 'practised', from: cases[40]?.code ?? '', window: 20, measure: 'time', chosen: true },
};

describe.each([NaN, Infinity, -Infinity])('where a caller gives %s for a number, whichever it is', (broken) => {
  it('resultFor answers with numbers or a reason', () => {
    const paths = numberPaths(result);
    expect(paths.length).toBeGreaterThan(30);
    for (const path of paths)
      for (const measure of ['time', 'steadiness'] as const) {
        const outcome: Outcome = resultFor({ ...put(result, path, broken), measure });
        expect(notNumbers(outcome), path.join('.')).toEqual([]);
        expect(outcomeSchema.safeParse(outcome).success, path.join('.')).toBe(true);
      }
  });

  it('lastingFor answers with numbers or with nothing', () => {
    const asked = { ...result, windows: [cases.slice(20, 40).map(({ id }) => id), result.windowIds] };
    for (const path of numberPaths(asked))
      expect(notNumbers(lastingFor(put(asked, path, broken))), path.join('.')).toEqual([]);
  });

  it('startGoal answers with numbers or a reason', () => {
    for (const path of numberPaths(goal))
      expect(notNumbers(startGoal(put(goal, path, broken))), path.join('.')).toEqual([]);
  });

  it('assess answers with numbers or a reason', () => {
    for (const path of numberPaths(audit))
      expect(notNumbers(assess(put(audit, path, broken))), path.join('.')).toEqual([]);
  });
});

describe('a number that is none', () => {
  it('is named in the reason', () => {
    const outcome = resultFor({ ...result, baseline: { ...result.baseline, selectionAllowance: NaN } });
    expect(outcome).toMatchObject({ kind: 'cannot-tell', plain: null, selectionAllowance: 0 });
    expect(outcome.cannot).toEqual({ code: 'not-a-number', what: 'given', given: 'selection-allowance' });
    expect(startGoal({ ...goal, seed: NaN })).toEqual({
      kind: 'cannot',
      why: { code: 'not-a-number', what: 'given', given: 'seed' },
    });
    expect(assess({ ...audit, seed: NaN })).toMatchObject({
      kind: 'cannot',
      because: expect.stringMatching(/seed/) as string,
    });
  });

  it.each([0, 1, -0.1, 2])('may be a rate of serious events of %s, which is no rate', (rate) => {
    expect(resultFor({ ...result, seriousRate: { rate, source: 'test' } }).cannot).toMatchObject({
      given: 'serious-rate',
    });
  });

  it('is told from one that is not given', () => {
    expect(notANumber({ steer: null, from: undefined, seed: 0, adjustment: [1, 2] })).toBeNull();
    expect(notANumber({ seed: 1, adjustment: [0, NaN] })?.why).toMatchObject({ given: 'adjustment' });
  });
});
