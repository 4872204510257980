import type { StepPoint } from './step-point';
import { auditThresholds } from './thresholds';
import type { DifferenceCannot, Interval, StepAudit } from './types';

type Difference = Pick<
  StepAudit,
  'difference' | 'differenceSameEyes' | 'differenceWithEye' | 'differenceInterval' | 'differenceCannot'
>;

/**
 * Median less 20th percentile, seconds a case: said with its interval, or not at all and why.
 *
 * @param apart split into what goes with the eye and what is left among the same kind of eye.
 * @param interval of the resamples; `null` where too few of them hold the step.
 * @param recorded step times as recorded, seconds, NaN where absent.
 */
export function differenceOf(
  { n, median, p20, ranked }: Pick<StepPoint, 'n' | 'median' | 'p20' | 'ranked'>,
  apart: boolean,
  interval: Interval | null,
  recorded: Float64Array,
): Difference {
  if (n < auditThresholds.intervalFrom || median === null || p20 === null || ranked === null)
    return cannot({ code: 'too-few-cases', cases: n, needed: auditThresholds.intervalFrom });
  if (!interval) return cannot({ code: 'too-few-lists' });
  const times = recorded.filter((value) => !Number.isNaN(value));
  if (times.every((value) => value === times[0])) return cannot({ code: 'all-equal' });
  if (interval.high < auditThresholds.coarseSeconds && times.every(Number.isInteger))
    return cannot({ code: 'whole-seconds' });
  const difference = median - p20;
  return {
    difference,
    differenceSameEyes: apart ? ranked : null,
    differenceWithEye: apart ? Math.max(0, difference - ranked) : null,
    differenceInterval: interval,
    differenceCannot: null,
  };
}

const cannot = (why: DifferenceCannot): Difference => ({
  difference: null,
  differenceSameEyes: null,
  differenceWithEye: null,
  differenceInterval: null,
  differenceCannot: why,
});
