import { shiftInterval } from '../statistics';

/** One case with its answer to one checkpoint, and where the chart has it (per cent of the baseline median). */
export type AnsweredCase = { done: boolean; percent: number };

export type DoneBeside = { done: number; not: number; ratio: number; low: number; high: number; method: string };

/** Fewer than this on either side, and one odd case would be half the difference. */
const ON_EACH_SIDE = 8;

/**
 * Did cases in which the checkpoint was done take another time than those in which it was not or partly done? Ratio of
 * times, done to not done, with a 95 % interval (Hodges–Lehmann on logarithms, inverted rank-sum test). An association:
 * a case that goes well both takes less time and leaves more done. Only answers given before lengths were seen belong
 * in here. `null` with fewer than 8 cases on either side.
 */
export function doneBeside(cases: readonly AnsweredCase[]): DoneBeside | null {
  const logs = (done: boolean) =>
    cases.filter((each) => each.done === done && each.percent > 0).map((each) => Math.log(each.percent / 100));
  const [done, not] = [logs(true), logs(false)];
  if (done.length < ON_EACH_SIDE || not.length < ON_EACH_SIDE) return null;
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
