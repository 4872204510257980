import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { auditOf, type Audit } from '../../../src/lib/audit';
import { median, quantile } from '../../../src/lib/statistics';
import { smallPupils, twelveLists, withPupils } from './small-pupils';

const audited = (cases = smallPupils(), resamples = 200): Audit =>
  auditOf({ cases, lists: twelveLists, procedure: withPupils, references: [], seed: 1, resamples });
const recordedOf = (stepId: string, cases = smallPupils()) =>
  cases.map(({ stretches }) => stretches.find((each) => each.stepId === stepId)!.seconds);
const named = (audit: Audit, stepId: string) => audit.steps.find((each) => each.stepId === stepId)!;

describe('median and 20th percentile', () => {
  it('are true when the sheet is counted, with small pupils in 17 of 48 cases and 2.5 times as long', () => {
    const times = recordedOf('capsulorhexis');
    const { median: middle, p20, twoThirds } = named(audited(), 'capsulorhexis');
    const share = (is: (seconds: number) => boolean) => times.filter(is).length / times.length;
    // Whole seconds: a few cases may share the figure that is printed.
    expect(share((seconds) => seconds <= p20!)).toBeGreaterThanOrEqual(0.19);
    expect(share((seconds) => seconds < p20!)).toBeLessThanOrEqual(0.2);
    expect(share((seconds) => seconds < middle!)).toBeLessThanOrEqual(0.5);
    expect(share((seconds) => seconds > middle!)).toBeLessThanOrEqual(0.5);
    expect(share((seconds) => seconds >= twoThirds!.low && seconds <= twoThirds!.high)).toBeCloseTo(2 / 3, 1);
  });

  it('are of the times as recorded in any record', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), fc.double({ min: 0.4, max: 3, noNaN: true }), (seed, times) => {
        const cases = smallPupils(times, { seed });
        for (const step of audited(cases, 20).steps) {
          const recorded = recordedOf(step.stepId, cases);
          expect(step.median).toBeCloseTo(median(recorded), 9);
          expect(step.p20).toBeCloseTo(quantile(recorded, 0.2), 9);
          expect(step.difference ?? step.median! - step.p20!).toBeCloseTo(step.median! - step.p20!, 9);
          // Half of the adjusted times lie on either side of the recorded median, too.
          const above = step.dots.filter(({ ratio }) => ratio > 1 + 1e-9).length;
          const below = step.dots.filter(({ ratio }) => ratio < 1 - 1e-9).length;
          expect(Math.max(above, below)).toBeLessThanOrEqual(24);
        }
      }),
      { numRuns: 15 },
    );
  });
});

describe('the difference', () => {
  it('is told apart where a fact of the eye shows for the step: ranked by what is left among the same kind of eye', () => {
    const audit = audited(smallPupils(), 400);
    const rhexis = named(audit, 'capsulorhexis');
    expect(rhexis.adjusted!.median).toBe(rhexis.median);
    expect(rhexis.differenceSameEyes).toBeCloseTo(rhexis.median! - rhexis.adjusted!.p20, 9);
    expect(rhexis.differenceWithEye).toBeCloseTo(Math.max(0, rhexis.difference! - rhexis.differenceSameEyes!), 9);
    expect(rhexis.differenceInterval!.low).toBeLessThan(rhexis.differenceSameEyes!);
    expect(rhexis.differenceInterval!.high).toBeGreaterThan(rhexis.differenceSameEyes!);
    for (const step of audit.steps.filter(({ stepId }) => stepId !== 'capsulorhexis'))
      expect(step).toMatchObject({ differenceSameEyes: null, differenceWithEye: null });
  });

  it('is left whole where no fact of the eye shows', () => {
    for (const step of audited(smallPupils(1)).steps) expect(step.differenceSameEyes).toBeNull();
  });
});
