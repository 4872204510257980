import { describe, expect, it } from 'vitest';
import { countingRule } from '../../../src/lib/practice';
import { lastingKind } from '../../../src/lib/practice/lasting';
import { chanceOfShorter } from '../../../src/lib/practice/chance-of-shorter';
import type { PeriodFit } from '../../../src/lib/practice/period-fit';
import { steadierOf } from '../../../src/lib/practice/steadier';
import { practiceThresholds } from '../../../src/lib/practice/thresholds';
import {
  bernoulliCusumLimit,
  bernoulliCusumWeights,
  clopperPearson,
  ewma,
  huberRegression,
  median,
  shiftInterval,
  tabularCusum,
  tQuantile,
  zeroEventsUpper,
} from '../../../src/lib/statistics';
import { case_, length, procedure, step } from '../../made-up/cases';
import { figures, rowOf, textOf } from './page-text';

/** The worked examples on the pages about a goal, each done again. */
const FOUR = ['1', '2', '3', '4'] as const;
const percent = (log: number) => 100 * Math.exp(log);

describe('worked examples', () => {
  it('selection allowance', () => {
    const gains = [4, 0, 6, 2];
    const mean = gains.reduce((a, b) => a + b, 0) / 4;
    const allowance = practiceThresholds.selectionAllowanceFactor * mean;
    expect(textOf('baseline-cases')).toContain(`looked 4, 0, 6 and 2 % longer than in the baseline cases.`);
    expect(textOf('baseline-cases')).toContain(`The mean is ${mean} %, so the allowance is ${allowance} %.`);
    const reported = 100 - percent(Math.log(0.82) + allowance / 100);
    expect(textOf('baseline-cases')).toContain(`18 % less is then reported as about ${Math.round(reported)} % less`);
  });

  it.each([
    ['1.16', 0.15],
    ['1.22', 0.2],
    ['1.28', 0.25],
    ['1.35', 0.3],
  ])('what twenty cases can show, spread %s', (spread, tau) => {
    expect(Math.exp(tau).toFixed(2)).toBe(spread);
    // Residuals of one size, none of them clipped, so that the spread is what is asked.
    const fit = (size: number) =>
      ({ residuals: new Float64Array(40).fill(size), n: 40, freedom: 40, scale: 1, deff: 1, lists: 8 }) as PeriodFit;
    const foretold = { against: fit(tau), rest: fit(0.13), together: -0.15, sharedCaseDifficulty: 1.6, facts: 2 };
    const power = (change: number) => chanceOfShorter(foretold, Math.log(change), 20, 0);
    const [, fifth, tenth] = rowOf('what-twenty-can-show', spread);
    expect([fifth, tenth]).toEqual([0.8, 0.9].map((change) => `in ${Math.round(100 * power(change))} of 100`));
  });

  it('the next twenty', () => {
    const four = procedure(['a', 'b', 'c', 'd'].map((id) => step(id)));
    const timed = (ids: string, more = {}) => case_(1, [...ids].map((id) => length(id, 60)), more); // prettier-ignore
    const cases = [
      timed('abcd'),
      timed('abc'),
      timed('abcd', { hands: { whole: 'mine', steps: { a: 'supervisor' } } }),
      timed('abcd', { leftOut: { reason: 'other', at: '2026-01-01', timesSeen: false } }),
    ];
    const counts = countingRule([timed('abcd')], four, 'a');
    expect(cases.map(counts)).toEqual([true, false, false, false]);
    expect(FOUR.map((row) => rowOf('next-twenty', row)[2]?.startsWith('yes'))).toEqual(cases.map(counts));
  });

  it('what was done, beside the times', () => {
    const { estimate } = shiftInterval([80, 90].map(Math.log), [100, 120].map(Math.log));
    expect(textOf('done')).toContain('80 and 90 s where it was done, 100 and 120 s where it was not.');
    expect(textOf('done')).toContain(`have the median ${Math.exp(estimate).toFixed(2)}, so`);
  });

  it('the result', () => {
    const rows = FOUR.map((row) => rowOf('result', row).slice(2).flatMap(figures));
    for (const [own, rest, against] of rows) expect(against).toBe(Math.round((100 * own!) / rest!));
    const change = (values: readonly number[]) => {
      const fit = huberRegression([Float64Array.of(0, 0, 1, 1)], Float64Array.from(values));
      return fit.kind === 'cannot' ? NaN : Math.round(100 - percent(fit.coefficients[1]!));
    };
    const alone = change(rows.map(([own]) => Math.log(own!)));
    const against = change(rows.map(([own, rest]) => Math.log(own! / rest!)));
    expect(textOf('result')).toContain(
      `The step alone took ${alone} % less time. Against the rest it took ${against} % less`,
    );
  });

  it('steadier', () => {
    const [before, after] = [
      [-0.3, -0.1, 0.1, 0.3],
      [-0.12, -0.04, 0.04, 0.12],
    ];
    // Three times each: fewer than twelve cases in a period are not compared.
    const thrice = [before, after].flatMap((values) => [values!, values!, values!].flat());
    const said = steadierOf({
      residuals: Float64Array.from(thrice),
      window: Int32Array.from(thrice.keys(), (at) => (at < 12 ? 0 : 1)),
      selectionAllowance: 0,
      seed: 1,
    });
    expect(textOf('steadier')).toContain('−30, −10, +10 and +30 % from its middle before, and −12, −4, +4 and +12 %');
    expect(textOf('steadier')).toContain(
      `was 20 % and is now 8 %: ${said.kind === 'said' ? Math.exp(said.estimate).toFixed(1) : ''} times as much`,
    );
  });

  it.each([
    ['15 % less', 'lasted', -1, -1],
    ['6 % less', 'partly', -1, -1],
    ['9 % less', 'not-clear', -1, 1],
    ['3 % more', 'faded', -1, 1],
  ] as const)('did it last: %s', (row, kind, lowSign, highSign) => {
    const [likeliest, interval, said] = rowOf('lasting', row);
    const sign = likeliest!.endsWith('less') ? -1 : 1;
    const [low, high] = figures(interval).map((value, at) =>
      Math.log(1 + ((at === 0 ? lowSign : highSign) * value) / 100),
    );
    const variance = ((high! - low!) / 2 / tQuantile(0.975, 58)) ** 2;
    // Windows of twenty against forty baseline cases share a third of their variance: 1/40 of 1/40 + 1/20.
    const covariance = [
      [variance, variance / 3],
      [variance / 3, variance],
    ];
    const first = Math.log(1 - figures(textOf('lasting').match(/a first effect of (\d+) % less/)?.[1])[0]! / 100);
    const estimates = [first, Math.log(1 + (sign * figures(likeliest)[0]!) / 100)];
    const fit = { kind: 'fit', estimates, covariance, df: 58 } as unknown as PeriodFit;
    expect(lastingKind(fit, 1, first, 0)).toBe(kind);
    expect(said).toBe(
      { lasted: '*lasted*', partly: '*partly*', 'not-clear': '*not clear yet*', faded: '*faded*' }[kind],
    );
  });

  it('the run chart', () => {
    const times = [1.1, 0.9, 1, 1.3];
    const middle = median(times);
    const points = times.map((time) => Math.round((100 * time) / middle));
    expect(textOf('run-chart')).toContain(
      `1.10, 0.90, 1.00 and 1.30 times as long as the model expects. The median is ${middle}. The points are drawn at ${points.slice(0, 3).join(', ')} and ${points[3]} %.`,
    );
  });

  it('moving average and cumulative sums', () => {
    const values = FOUR.flatMap((row) => figures(rowOf('other-charts', row)[1]?.replace('+', '')));
    expect(values).toEqual([1, 2, 0, -1]);
    const average = ewma(values, { lambda: 0.2, target: 0 });
    const sums = tabularCusum(values, { target: 0, k: 0.5, h: 5 });
    expect(FOUR.map((row) => rowOf('other-charts', row).slice(2))).toEqual(
      values.map((_, at) => [average[at]!.toFixed(2), sums.high[at]!.toFixed(1), sums.low[at]!.toFixed(1)]),
    );
  });

  it('events', () => {
    const bound = (n: number) => 100 * zeroEventsUpper(n, 0.95);
    expect(textOf('events')).toContain(`no event in 3 answered cases, and rates up to ${Math.round(bound(3))} in 100`);
    const { low, high } = clopperPearson(1, 4, 0.95);
    expect(textOf('events')).toContain(`from ${(100 * low).toFixed(1)} to ${Math.round(100 * high)} in 100`);
    for (const n of [20, 44, 60]) expect(textOf('events')).toContain(`${bound(n).toFixed(1)} `);
    expect(textOf('events')).toContain(
      `${bound(20).toFixed(1)} in 100 after 20 answered cases, ${bound(44).toFixed(1)}`,
    );
  });

  it('the monitor', () => {
    const { event, none } = bernoulliCusumWeights(0.01, 2);
    const sums = [none, none, event, none].reduce<number[]>(
      (all, weight) => [...all, Math.max(0, (all.at(-1) ?? 0) + weight)],
      [],
    );
    const limit = bernoulliCusumLimit(0.01, 2, 200, 0.05);
    const [a, b, c, d] = sums.map((sum) => String(Number(sum.toFixed(2))));
    expect(textOf('monitor')).toContain(`takes ${(-none).toFixed(2)} off the sum`);
    expect(textOf('monitor')).toContain(
      `adds ${event.toFixed(2)}. So the sum goes ${a}, ${b}, ${c}, ${d}. The limit is at ${limit.toFixed(2)}.`,
    );
  });

  it('error rates', () => {
    const [, measured] = rowOf('error-rates', 'nothing changed');
    const rate = figures(measured)[0]! / 100;
    expect(textOf('error-rates')).toContain(`a chance of ${(100 * rate).toFixed(1)} in 100.`);
    expect(textOf('error-rates')).toContain(
      `of the four sees it is ${Math.round(100 * (1 - (1 - rate) ** 4))} in 100.`,
    );
  });
});
