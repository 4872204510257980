import type { CannotSay, Effect, ResultKind } from '../model';
import { median, robustScale, tQuantile } from '../statistics';
import type { ChangeInput } from './change';
import { upperTail, type Look } from './effect';
import type { TimeJudgement } from './judge-time';
import { steadierOf } from './steadier';

export type SteadinessJudgement = {
  kind: ResultKind;
  spread: Effect | null;
  /** Usual range of the step, seconds, adjusted for the eye: two thirds of cases lie in it. */
  rangeBaseline: [number, number] | null;
  rangeWindow: [number, number] | null;
  cannot: CannotSay | null;
};

/** Steadier or not, of a step against the rest of its operations; the ranges are of the step's own times. */
export function judgeSteadiness(
  time: Pick<TimeJudgement, 'change'>,
  input: Pick<ChangeInput, 'window'>,
  judged: { selectionAllowance: number; seed: number; look: Look; permutations?: number },
): SteadinessJudgement {
  const { against, plain } = time.change;
  const adjusted = plain.kind === 'fit' ? plain.adjusted : new Float64Array(0);
  const ranges = {
    rangeBaseline: usualRange(adjusted, input.window, 0),
    rangeWindow: usualRange(adjusted, input.window, 1),
  };
  const said =
    against.kind === 'cannot'
      ? against
      : steadierOf({
          residuals: against.residuals,
          window: input.window,
          level: 1 - upperTail(judged.look),
          ...judged,
        });
  if (said.kind === 'cannot')
    return { kind: 'cannot-tell', spread: null, cannot: { code: said.code, because: said.because }, ...ranges };
  const df = said.nBaseline + said.nWindow - 2;
  const reach = tQuantile(upperTail(judged.look), df) * said.se;
  return {
    kind: said.steadier ? 'steadier' : 'cannot-tell',
    spread: {
      estimate: said.estimate,
      low: said.estimate - reach,
      high: said.estimate + reach,
      rawEstimate: said.raw,
      rawLow: said.raw - reach,
      rawHigh: said.raw + reach,
      se: said.se,
      df,
      nBaseline: said.nBaseline,
      nWindow: said.nWindow,
      method: 'Mean absolute deviation of the step against the rest, window to start; judged by permutation, one-sided',
    },
    cannot: null,
    ...ranges,
  };
}

function usualRange(adjusted: Float64Array, window: Int32Array, period: number): [number, number] | null {
  const own = adjusted.filter((value, at) => window[at] === period && Number.isFinite(value));
  const spread = robustScale(own)?.scale;
  if (spread === undefined) return null;
  const middle = median(own);
  return [Math.exp(middle - spread), Math.exp(middle + spread)];
}
