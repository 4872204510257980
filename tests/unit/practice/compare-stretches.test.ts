import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changeOf } from '../../../src/lib/practice/change';
import { compareStretches, type Compared, type StretchArrays } from '../../../src/lib/practice/compare-stretches';
import { randomStream } from '../../../src/lib/statistics';
import { lookBack, lookBackRows } from '../../bench/characteristics-look-back';

type Made = { seed: number; steps: number; each: number; listSize: number; missing: number };

/** Two stretches of chance: one recorded fact, list effects, some times missing. */
function made({ seed, steps, each, listSize, missing }: Made): StretchArrays {
  const stream = randomStream(seed, 6);
  const at = Array.from({ length: 2 * each }, (_, i) => i);
  const list = Int32Array.from(at, (i) => Math.floor(i / listSize));
  const ofList = at.map(() => 0.08 * stream.normal());
  const dense = Float64Array.from(at, () => (stream.uniform() < 0.4 ? 1 : 0));
  const all = Array.from({ length: steps }, (_, step) => step);
  return {
    y: all.map((step) =>
      Float64Array.from(at, (i) =>
        stream.uniform() < missing && step > 2
          ? NaN
          : 3 + step / 3 + 0.22 * stream.normal() + ofList[list[i]!]! + 0.2 * dense[i]!,
      ),
    ),
    columns: [dense],
    list,
    listsKnown: true,
    window: Int32Array.from(at, (i) => (i >= each ? 1 : 0)),
    steps: all,
    othersOf: (step, found) => all.filter((other) => other !== step && !found.includes(other)),
    alpha: 0.05,
  };
}

const records = fc.record<Made>({
  seed: fc.integer({ min: 1, max: 1e6 }),
  steps: fc.integer({ min: 5, max: 8 }),
  each: fc.integer({ min: 24, max: 40 }),
  listSize: fc.integer({ min: 3, max: 6 }),
  missing: fc.constantFrom(0, 0.1),
});
const runs = { numRuns: 30, seed: 21 };

const estimate = (answer: Compared | undefined) => (answer && answer.kind !== 'cannot' ? answer.effect.estimate : NaN);
const moved = (input: StretchArrays, by: (step: number, at: number) => number): StretchArrays => ({
  ...input,
  y: input.y.map((row, step) => row.map((value, at) => value + by(step, at))),
});

describe('two stretches compared', () => {
  it('gives for each step the change against the rest that a result is read from', () => {
    fc.assert(
      fc.property(records, (record) => {
        const input = { ...made(record), alpha: 1e-12 };
        const said = compareStretches(input);
        for (const stepIndex of input.steps) {
          const { against } = changeOf({ ...input, stepIndex, others: input.othersOf(stepIndex, []), windows: 1 });
          const answer = said.get(stepIndex)!;
          if (against.kind === 'cannot' || answer.kind === 'cannot') throw new Error('too little was made');
          expect(answer.effect.estimate).toBeCloseTo(against.estimates[0]!, 12);
          expect(answer.effect.df).toBeCloseTo(against.df, 9);
        }
      }),
      runs,
    );
  });

  it('turns the sign of everything where earlier and later change places, and names the same step', () => {
    // Where a step is missing in some cases, the rest of those is a mean over fewer steps: then it is nearly so.
    const complete = records.map((record) => ({ ...record, missing: 0 }));
    fc.assert(
      fc.property(complete, (record) => {
        const input = moved(made(record), (step, at) => (step === 1 && at >= record.each ? Math.log(0.7) : 0));
        const swapped = { ...input, window: input.window.map((period) => 1 - period) };
        const back = compareStretches({ ...swapped, alpha: 1e-12 });
        for (const [member, answer] of compareStretches({ ...input, alpha: 1e-12 }))
          expect(Math.abs(estimate(answer) + estimate(back.get(member)))).toBeLessThan(1e-6);
        // What is asked of a step's own part is asked less strictly of *longer*: a shorter step is a longer one backwards.
        if (compareStretches(input).get(1)?.kind === 'shorter')
          expect(compareStretches(swapped).get(1)?.kind).toBe('longer');
      }),
      runs,
    );
  });

  it('does not depend on the unit of time, nor on how long each step is', () => {
    fc.assert(
      fc.property(records, fc.double({ min: 0.01, max: 100, noNaN: true }), (record, unit) => {
        const input = made(record);
        const said = compareStretches(moved(input, (step) => Math.log(unit) * (1 + step / 4)));
        for (const [member, answer] of compareStretches(input)) {
          expect(said.get(member)?.kind).toBe(answer.kind);
          expect(Math.abs(estimate(said.get(member)) - estimate(answer))).toBeLessThan(1e-6);
        }
      }),
      runs,
    );
  });

  it('puts what all steps share down to the whole alone', () => {
    fc.assert(
      fc.property(records, fc.double({ min: -0.6, max: 0.6, noNaN: true }), (record, by) => {
        const input = { ...made(record), alpha: 1e-12 };
        const said = compareStretches(moved(input, (_, at) => (at >= record.each ? by : 0)));
        for (const [member, answer] of compareStretches(input))
          expect(Math.abs(estimate(said.get(member)) - estimate(answer) - (member === 'whole' ? by : 0))).toBeLessThan(
            1e-6,
          );
      }),
      runs,
    );
  });

  it('takes a step that was found out of the rest of the others', () => {
    const input = made({ seed: 3, steps: 6, each: 40, listSize: 4, missing: 0 });
    const changed = moved(input, (step, at) => (step === 2 && at >= 40 ? Math.log(0.6) : 0));
    const said = compareStretches(changed);
    expect(said.get(2)?.kind).toBe('shorter');
    const { against } = changeOf({ ...changed, stepIndex: 0, others: [1, 3, 4, 5], windows: 1 });
    if (against.kind === 'cannot') throw new Error(against.why.code);
    expect(estimate(said.get(0))).toBeCloseTo(against.estimates[0]!, 12);
    // With it the rest is a fifth of ln 0.6 shorter, and the step looks a tenth longer than it is.
    const within = changeOf({ ...changed, stepIndex: 0, others: [1, 2, 3, 4, 5], windows: 1 }).against;
    if (within.kind === 'cannot') throw new Error(within.why.code);
    expect(within.estimates[0]! - estimate(said.get(0))).toBeGreaterThan(0.08);
  });

  it('does not name a step that stayed while the rest took longer', () => {
    const input = made({ seed: 5, steps: 6, each: 40, listSize: 4, missing: 0 });
    const others = compareStretches(moved(input, (step, at) => (step !== 2 && at >= 40 ? Math.log(1.5) : 0)));
    expect(estimate(others.get(2))).toBeLessThan(-0.3);
    expect(others.get(2)?.kind).toBe('not-clear');
  });

  it('says so where there is nothing to compare a step with', () => {
    const input = made({ seed: 7, steps: 3, each: 30, listSize: 5, missing: 0 });
    const said = compareStretches(input);
    expect(said.get(0)).toMatchObject({ kind: 'cannot', why: { code: 'few-other-steps' } });
    expect(said.get('whole')?.kind).not.toBe('cannot');
    const two = compareStretches({ ...input, list: input.list.map((_, at) => (at < 30 ? at % 2 : at)) });
    expect(two.get('whole')).toMatchObject({ kind: 'cannot', why: { code: 'few-lists' } });
  });
});

describe('a small seeded part of the bench', () => {
  const row = (name: string) => lookBackRows.find(({ world }) => world.name === name)!;
  const times = (name: string, runs: number, hit: (said: ReturnType<typeof lookBack>) => boolean) =>
    Array.from({ length: runs }, (_, run) => lookBack(row(name), 7, run)).filter(hit).length;

  it('nothing changed: a step named in at most 8 of 60', () => {
    // At the bar of 5 %: P(9 or more of 60) = 0.004 (binomial, scipy.stats.binom).
    expect(times('back-nothing', 60, ({ named }) => named.some((each) => each !== 'whole'))).toBeLessThanOrEqual(8);
  });

  it('one step a fifth shorter: named in at least 40 of 60', () => {
    // At the bar of 80 %: P(39 or fewer of 60) = 0.004.
    expect(times('back-fifth', 60, ({ named }) => named.includes(4))).toBeGreaterThanOrEqual(40);
  });
});
