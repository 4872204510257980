import { median } from '../statistics';
import type { Case } from '../model';
import { stepSecondsOf } from './step-time';

/** From so many cases timed twice anything is said of the spread of the two timings. */
const ENOUGH_TWICE = 3;
/** Normal-consistent scale of the median absolute deviation. */
const MAD_SCALE = 1.4826;

/** How far two timings of one recording lie apart at one step, by the same surgeon, the first marks hidden. */
export type TimingError = {
  /** Cases timed twice. */
  n: number;
  /** Median of the second timing less the first, seconds. */
  difference: number;
  /** Smallest and largest difference, seconds. */
  from: number;
  to: number;
  /** Error of one timing as a share of the time, a standard deviation of logs; `null` below three cases. */
  error: number | null;
};

/**
 * Own timing error at a step. Each second timing counts against the first one as it stands in the record; of the error of
 * the difference one timing has the part 1/√2.
 *
 * @returns `null` where no case of the step was timed twice
 */
export function timingError(cases: readonly Case[], stepId: string): TimingError | null {
  const twice = cases.flatMap((one) => {
    const first = stepSecondsOf(one, stepId);
    return (one.timedAgain ?? []).flatMap(({ stepSeconds }) => {
      const second = stepSeconds[stepId];
      return first === null || second === undefined
        ? []
        : [{ difference: second - first, log: Math.log(second / first) }];
    });
  });
  if (twice.length === 0) return null;
  const differences = twice.map(({ difference }) => difference);
  const logs = twice.map(({ log }) => log);
  const middle = median(logs);
  return {
    n: twice.length,
    difference: median(differences),
    from: Math.min(...differences),
    to: Math.max(...differences),
    error:
      twice.length < ENOUGH_TWICE ? null : (MAD_SCALE * median(logs.map((log) => Math.abs(log - middle)))) / Math.SQRT2,
  };
}
