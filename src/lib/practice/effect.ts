import type { Effect } from '../model';
import { normalCdf, tQuantile } from '../statistics';
import { standardError, type PeriodFit } from './period-fit';
import { practiceThresholds as set } from './thresholds';

export type Look = 'first' | 'second';

/** Probability below the upper end of the two-sided interval a look is judged by. */
export const upperTail = (look: Look): number => (look === 'first' ? (1 + set.levelFirst) / 2 : normalCdf(set.zSecond));

/**
 * One estimate of a fit as an effect on the log scale, with and without the allowance for having picked the step.
 * @param counts cases of the start and of this window
 */
export function effectOf(
  fit: PeriodFit,
  index: number,
  options: { selectionAllowance: number; look: Look; counts: { start: number; window: number }; about: string },
): Effect {
  const estimate = fit.estimates[index]!;
  const se = standardError(fit, index);
  const reach = tQuantile(upperTail(options.look), fit.df) * se;
  const corrected = estimate + options.selectionAllowance;
  return {
    estimate: corrected,
    low: corrected - reach,
    high: corrected + reach,
    rawEstimate: estimate,
    rawLow: estimate - reach,
    rawHigh: estimate + reach,
    se,
    df: fit.df,
    nBaseline: options.counts.start,
    nWindow: options.counts.window,
    method: `${options.about}; Huber regression on facts of the eye and the window, lists' design effect ${fit.deff.toFixed(2)}, t with ${Number(fit.df.toFixed(1))} degrees of freedom${options.look === 'second' ? ', second look (z = 2.24)' : ''}`,
  };
}
