import { describe, expect, it } from 'vitest';
import { chartSeries } from '../../../src/lib/practice';
import { goalOn } from '../../made-up/goal-on';
import { listsFor, month, operation } from '../../made-up/month';

const ids = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, at) => `case-${from + at}`);
const cases = month(80, { change: Math.log(0.8), sd: 0.1 });
const lists = listsFor(cases);
const goal = goalOn(cases);
const asked = { cases, lists, procedure: operation, baseline: goal.baseline, stepId: 'practised' };
const series = (over: Partial<Parameters<typeof chartSeries>[0]> = {}) => {
  const drawn = chartSeries({ ...asked, windows: [ids(41, 60)], ...over });
  if (drawn.kind === 'cannot') throw new Error(drawn.why.code);
  return drawn;
};

describe('the points of the run chart', () => {
  it('are this step against the rest, per cent of the baseline median: the start is at 100, the window near 80', () => {
    const drawn = series({ windows: [ids(41, 60), ids(61, 80)] });
    expect(drawn.basis).toBe('against');
    expect(drawn.points).toHaveLength(80);
    expect(drawn.points.filter(({ period }) => period === 1).map(({ caseId }) => caseId)).toEqual(ids(41, 60));
    expect(drawn.medians.map(({ period, n }) => [period, n])).toEqual([
      [0, 40],
      [1, 20],
      [2, 20],
    ]);
    expect(drawn.medians[0]!.percent).toBeCloseTo(100, 9);
    for (const { percent } of drawn.medians.slice(1)) expect(Math.abs(percent - 80)).toBeLessThan(8);
  });

  it('do not move when the whole operation drifts', () => {
    const drifted = month(80, { change: Math.log(0.8) + 0.3, rest: 0.3, sd: 0.1 });
    expect(series({ cases: drifted }).medians[1]!.percent).toBeCloseTo(series().medians[1]!.percent, 4);
    expect(series({ cases: drifted, plain: true }).medians[1]!.percent).toBeGreaterThan(100);
  });

  it('are the step alone where asked, or where there is no rest', () => {
    expect(series({ plain: true }).basis).toBe('plain');
    const few = cases.map((one) => ({
      ...one,
      stretches: one.stretches.filter(({ stepId }) => ['first', 'practised', 'fifth'].includes(stepId!)),
    }));
    expect(series({ cases: few }).basis).toBe('plain');
  });

  it('have limits and signals only in a known order and with a full window', () => {
    const drawn = series();
    expect(drawn.limits!.low).toBeLessThan(100);
    expect(drawn.limits!.high).toBeGreaterThan(100);
    expect(drawn.signals!.useful).toBeGreaterThanOrEqual(24);
    expect(drawn.signals!.signal).toBe(true);
    expect(series({ windows: [] }).signals).toBeNull();
    const unordered = series({ cases: cases.map((one) => ({ ...one, orderKnown: false })) });
    expect(unordered).toMatchObject({ limits: null, signals: null });
    expect(unordered.points.some(({ look }) => look)).toBe(false);
  });

  it('point out a recording outside three sigmas of the baseline cases', () => {
    const odd = cases.map((one, at) =>
      at === 50
        ? {
            ...one,
            stretches: one.stretches.map((each) =>
              each.stepId === 'practised' ? { ...each, seconds: 4 * each.seconds } : each,
            ),
          }
        : one,
    );
    expect(
      series({ cases: odd })
        .points.filter(({ look }) => look)
        .map(({ caseId }) => caseId),
    ).toContain('case-51');
  });

  it('say why they cannot be drawn', () => {
    expect(chartSeries({ ...asked, cases: [], windows: [] })).toMatchObject({
      kind: 'cannot',
      why: { code: 'no-baseline' },
    });
  });
});
