import type { PeriodFit } from './period-fit';
import { practiceThresholds as set } from './thresholds';

/**
 * λ: how much more than the other steps this one feels what is shared by a whole operation (an easy eye nobody wrote
 * down). Mean over j of cov(e_k, e_j) ÷ mean over the other pairs of cov(e_j, e_l), e the clipped residuals,
 * sums ÷ (n − p); held in [1.25, 2.5] because twenty to a hundred cases cannot estimate it better.
 */
export function sharedCaseDifficulty(own: PeriodFit, others: readonly PeriodFit[]): number {
  const withOwn = meanOf(others.map((other) => covariance(own, other)));
  const pairs = others.flatMap((one, index) => others.slice(index + 1).map((other) => covariance(one, other)));
  const among = Math.max(set.sharedCaseDifficultyFloor, meanOf(pairs));
  return Math.min(set.sharedCaseDifficulty.most, Math.max(set.sharedCaseDifficulty.least, withOwn / among));
}

function covariance(a: PeriodFit, b: PeriodFit): number {
  let sum = 0;
  let n = 0;
  a.clipped.forEach((value, at) => {
    const product = value * (b.clipped[at] ?? NaN);
    if (!Number.isFinite(product)) return;
    sum += product;
    n += 1;
  });
  const fitted = Math.max(a.n - a.freedom, b.n - b.freedom);
  return n > fitted ? sum / (n - fitted) : 0;
}

const meanOf = (values: readonly number[]) =>
  values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;
