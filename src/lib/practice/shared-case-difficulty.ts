import type { PeriodFit } from './period-fit';
import { practiceThresholds as set } from './thresholds';

/**
 * λ: how much more than the other steps this one feels what is shared by a whole operation (an easy eye nobody wrote
 * down). Mean over j of cov(e_k, e_j) ÷ mean over the other pairs of cov(e_j, e_l), e the clipped residuals,
 * sums ÷ (n − p); taken three quarters of its standard error higher, and held in [1.25, 3.5]. The standard error
 * leaves out one list at a time (delete-a-group jackknife: Shao and Tu, The Jackknife and Bootstrap, 1995, section 2.3).
 * The estimate alone is too small half of the time, and then an easy month looks like a change of this step.
 * @param list list of each case
 */
export function sharedCaseDifficulty(own: PeriodFit, others: readonly PeriodFit[], list: Int32Array): number {
  const withOwn = others.map((other) => productsOf(own, other, list));
  const among = others.flatMap((one, index) => others.slice(index + 1).map((other) => productsOf(one, other, list)));
  const ratio = (without: number | null) =>
    meanOf(withOwn.map((pair) => covariance(pair, without))) /
    Math.max(set.sharedCaseDifficultyFloor, meanOf(among.map((pair) => covariance(pair, without))));
  const { least, most, errors } = set.sharedCaseDifficulty;
  const left = [...new Set(list)].map(ratio);
  const raised = ratio(null) + errors * jackknifeError(left);
  return Math.min(most, Math.max(least, raised));
}

type Products = { sum: number; n: number; fitted: number; byList: ReadonlyMap<number, { sum: number; n: number }> };

/** Products of the residuals of two steps in the cases that have both, in all and by list. */
function productsOf(a: PeriodFit, b: PeriodFit, list: Int32Array): Products {
  const byList = new Map<number, { sum: number; n: number }>();
  let sum = 0;
  let n = 0;
  a.clipped.forEach((value, at) => {
    const product = value * b.clipped[at]!;
    if (!Number.isFinite(product)) return;
    sum += product;
    n += 1;
    const number = list[at] ?? -1;
    const held = byList.get(number) ?? { sum: 0, n: 0 };
    held.sum += product;
    held.n += 1;
    byList.set(number, held);
  });
  return { sum, n, fitted: Math.max(a.n - a.freedom, b.n - b.freedom), byList };
}

/** @param without a list whose cases are left out; `null`: none */
function covariance({ sum, n, fitted, byList }: Products, without: number | null): number {
  const out = (without === null ? null : byList.get(without)) ?? { sum: 0, n: 0 };
  const free = n - out.n - fitted;
  return free > 0 ? (sum - out.sum) / free : 0;
}

function jackknifeError(left: readonly number[]): number {
  const groups = left.length;
  if (groups < 2) return 0;
  const middle = meanOf(left);
  const squares = left.reduce((sum, value) => sum + (value - middle) ** 2, 0);
  return Math.sqrt(((groups - 1) / groups) * squares);
}

const meanOf = (values: readonly number[]) =>
  values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;
