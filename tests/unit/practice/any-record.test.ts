import { cannotSayWords, cannotStartWords } from '../../../src/lib/words';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lastingSchema, outcomeSchema, baselineSchema, type Case } from '../../../src/lib/model';
import { chartSeries, lastingFor, resultFor, startGoal, windowOf } from '../../../src/lib/practice';
import { goalAfter, listsFor, month, operation } from '../../made-up/month';
import { goalAsked } from '../../made-up/goal-on';

/** Records as they come: steps missing, other hands, whole seconds, times all the same, one list, no lists, outliers, left out. */
const records = fc
  .record({
    cases: fc.integer({ min: 0, max: 90 }),
    seed: fc.integer({ min: 1, max: 1e6 }),
    listSize: fc.constantFrom(1, 3, 5, 12, 50),
    lists: fc.boolean(),
    sd: fc.constantFrom(0, 0.01, 0.15, 1),
    whole: fc.boolean(),
    missing: fc.constantFrom(0, 3, 2),
    hands: fc.constantFrom(0, 4, 2),
    facts: fc.boolean(),
    extreme: fc.boolean(),
    leftOut: fc.constantFrom(0, 7),
  })
  .map((made): Case[] =>
    month(made.cases, made).map((one, at) => ({
      ...one,
      facts: made.facts ? one.facts : {},
      hands: made.hands && at % made.hands === 0 ? { whole: 'mine', steps: { practised: 'taken-over' } } : one.hands,
      leftOut:
        made.leftOut && at % made.leftOut === 0
          ? { reason: 'other', timesSeen: at % 2 === 0, at: '2026-06-02T10:00:00Z' }
          : null,
      stretches: one.stretches
        .filter((_, index) => !made.missing || (at + index) % made.missing !== 0 || index === 1)
        .map((each) => ({
          ...each,
          seconds:
            made.extreme && at % 17 === 0
              ? 7000
              : made.whole
                ? Math.max(1, Math.round(each.seconds / 10))
                : each.seconds,
        })),
    })),
  );

describe('whatever the record', () => {
  it('a goal, its window, result, lasting and chart are answers of the stored shape: no NaN, no exception', () => {
    fc.assert(
      fc.property(records, fc.constantFrom('time', 'steadiness', 'checkpoints', 'safety'), (cases, measure) => {
        const lists = listsFor(cases);
        const started = startGoal(goalAsked(cases, { measure, chosenBy: 'seconds', seed: 2, from: 41, resamples: 20 }));
        if (started.kind === 'cannot') return void expect(cannotStartWords(started.why)).toMatch(/\.$/);
        baselineSchema.parse(started.baseline);
        const goal = goalAfter(40, { measure, baseline: started.baseline });
        const window = windowOf(goal, cases, lists, operation);
        const input = { cases, lists, procedure: operation, baseline: started.baseline, stepId: 'practised' };
        const windowIds = window.windows[0] ?? window.running;
        const outcome = resultFor({ ...input, windowIds, measure, look: 'first', seed: 2, permutations: 99 });
        expect(outcomeSchema.parse(outcome)).toEqual(outcome);
        if (outcome.kind === 'cannot-tell' && outcome.against === null)
          expect(cannotSayWords(outcome.cannot!)).toMatch(/\.$/);
        lastingFor({ ...input, windows: window.windows }).forEach((each) => lastingSchema.parse(each));
        const chart = chartSeries({ ...input, windows: window.windows });
        if (chart.kind === 'series') for (const point of chart.points) expect(point.percent).toBeGreaterThan(0);
      }),
      { numRuns: 80, seed: 6 },
    );
  });
});
