import type { CannotJudge, Effect, ResultKind } from '../model';
import { quantile, tQuantile } from '../statistics';
import type { ChangeInput } from './change';
import { upperTail, type Look } from './effect';
import type { TimeJudgement } from './judge-time';
import { steadierOf } from './steadier';

export type SteadinessJudgement = {
  kind: ResultKind;
  spread: Effect | null;
  /** Two thirds of the step's cases, as recorded: 17th to 83rd percentile, seconds. */
  rangeBaseline: [number, number] | null;
  rangeWindow: [number, number] | null;
  cannot: CannotJudge | null;
};

/** Steadier or not, of a step against the rest of its operations; the ranges are of the step's own times. */
export function judgeSteadiness(
  time: Pick<TimeJudgement, 'change'>,
  input: Pick<ChangeInput, 'window' | 'y' | 'stepIndex'>,
  judged: { selectionAllowance: number; seed: number; look: Look; permutations?: number },
): SteadinessJudgement {
  const { against } = time.change;
  const recorded = input.y[input.stepIndex] ?? new Float64Array(0);
  const ranges = {
    rangeBaseline: twoThirds(recorded, input.window, 0),
    rangeWindow: twoThirds(recorded, input.window, 1),
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
  if (said.kind === 'cannot') return { kind: 'cannot-tell', spread: null, cannot: said.why, ...ranges };
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

function twoThirds(log: Float64Array, window: Int32Array, period: number): [number, number] | null {
  const own = log.filter((value, at) => window[at] === period && Number.isFinite(value)).map(Math.exp);
  return own.length === 0 ? null : [quantile(own, 1 / 6), quantile(own, 5 / 6)];
}
