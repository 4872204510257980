import { shiftInterval } from '../statistics';
import { practiceThresholds as set } from './thresholds';

/** One case with its answer to one checkpoint, and where the chart has it (per cent of the baseline median). */
export type AnsweredCase = { done: boolean; percent: number };

export type DoneBeside = { done: number; not: number; ratio: number; low: number; high: number; method: string };

/**
 * Did cases in which the checkpoint was done take a different time from those in which it was not, or only partly,
 * done? Ratio of times, done to not done, with a 95 % interval (Hodges–Lehmann on logarithms, inverted rank-sum test).
 * An association: a case that goes well both takes less time and leaves more done. Only answers given before the times
 * were seen belong here. `null` with fewer than 8 cases on either side.
 */
export function doneBeside(cases: readonly AnsweredCase[]): DoneBeside | null {
  const logs = (done: boolean) =>
    cases.filter((each) => each.done === done && each.percent > 0).map((each) => Math.log(each.percent / 100));
  const [done, not] = [logs(true), logs(false)];
  if (Math.min(done.length, not.length) < set.doneBesideEachSide) return null;
  const { estimate, low, high, method } = shiftInterval(done, not);
  return {
    done: done.length,
    not: not.length,
    ratio: Math.exp(estimate),
    low: Math.exp(low),
    high: Math.exp(high),
    method: `Hodges–Lehmann shift on logarithms, ${method} rank-sum interval`,
  };
}
