import type { CannotJudge } from '../model';
import { tQuantile } from '../statistics';
import { cannot, type Cannot } from './cannot';
import { sharedCaseDifficulty } from './shared-case-difficulty';
import { periodFit, standardError, type PeriodFit } from './period-fit';
import { restOfOperation, type Rest } from './rest-of-operation';
import { practiceThresholds as set } from './thresholds';

export type ChangeInput = {
  /** ln seconds, [step][case]; NaN where the step is absent. */
  y: readonly Float64Array[];
  stepIndex: number;
  /** Indices of the steps that may stand for the rest of the operation. */
  others: readonly number[];
  /** Facts of the eye, [column][case]. */
  columns: readonly Float64Array[];
  /** Period of each case: 0 for baseline cases, 1 … `windows`. */
  window: Int32Array;
  windows: number;
  /** List of each case. */
  list: Int32Array;
  /** false: neighbours stand in for lists; then nothing is asked of how many there are. */
  listsKnown: boolean;
};

export type Change = {
  /** This step alone; against the rest (the result rests on it); the rest itself. Estimates: one a window. */
  plain: PeriodFit | Cannot<CannotJudge>;
  against: PeriodFit | Cannot<CannotJudge>;
  rest: PeriodFit | Cannot<CannotJudge>;
  /** With λ times the rest taken off: only where the rest of the first window is clearly shorter. */
  difficultyOff: PeriodFit | Cannot<CannotJudge> | null;
  /** Steps that stood for the rest. */
  restSteps: readonly number[];
  /** d = y − r, NaN where it cannot be formed. */
  difference: Float64Array;
};

/** The change of one step from its baseline cases to each window: arrays in, fits out. Screens and bench use this same function. */
export function changeOf(input: ChangeInput): Change {
  const own = input.y[input.stepIndex] ?? new Float64Array(input.window.length).fill(NaN);
  const lead = windowIndicators(input.window, input.windows);
  const fit = (outcome: Float64Array) =>
    checked(outcome, input) ?? periodFit({ outcome, lead, columns: input.columns, list: input.list });
  const among = restOfOperation({ ...input, lead });
  const rest = where(among.values, own);
  const difference = minus(own, rest, 1);
  const plain = fit(own);
  const claim = restClaim(among, difference, input);
  const restFit = claim ?? fit(rest);
  return {
    plain,
    against: claim ?? fit(difference),
    rest: restFit,
    difficultyOff:
      input.windows > 0 &&
      plain.kind === 'fit' &&
      restFit.kind === 'fit' &&
      clearlyBelow(restFit, 0, set.restShorterConfidence)
        ? fit(minus(own, rest, sharedCaseDifficulty(plain, [...among.fits.values()], input.list)))
        : null,
    restSteps: [...among.parts.keys()],
    difference,
  };
}

/** One 0/1 column a window. */
export function windowIndicators(window: Int32Array, windows: number): Float64Array[] {
  return Array.from({ length: windows }, (_, index) =>
    Float64Array.from(window, (period) => (period === index + 1 ? 1 : 0)),
  );
}

/** Is this estimate above 0, one-sided? */
export function clearlyAbove(fit: PeriodFit, index: number, confidence: number): boolean {
  return fit.estimates[index]! - tQuantile(confidence, fit.df) * standardError(fit, index) > 0;
}

/** Is this estimate, with the allowance added, below 0, one-sided? */
export function clearlyBelow(fit: PeriodFit, index: number, confidence: number, selectionAllowance = 0): boolean {
  return fit.estimates[index]! + selectionAllowance + tQuantile(confidence, fit.df) * standardError(fit, index) < 0;
}

function restClaim(
  among: Rest,
  difference: Float64Array,
  { window, windows }: ChangeInput,
): Cannot<CannotJudge> | null {
  if (among.parts.size < set.otherSteps) return cannot({ code: 'few-other-steps' });
  const counts = countByPeriod(difference, window, windows);
  return counts.every((count) => count >= set.restCases)
    ? null
    : cannot({ code: 'few-rest-cases', baseline: counts[0]!, windows: counts.slice(1) });
}

function checked(
  outcome: Float64Array,
  { window, windows, list, listsKnown }: ChangeInput,
): Cannot<CannotJudge> | null {
  const counts = countByPeriod(outcome, window, windows);
  if (counts.some((count) => count < 2)) return cannot({ code: 'few-cases' });
  if (!listsKnown) return null;
  const lists = Array.from({ length: windows + 1 }, () => new Set<number>());
  outcome.forEach((value, at) => {
    if (Number.isFinite(value)) lists[window[at]!]?.add(list[at]!);
  });
  const fewest = Math.min(...lists.map((each) => each.size));
  return fewest >= set.listsEachPeriod ? null : cannot({ code: 'few-lists', lists: fewest });
}

export function countByPeriod(values: Float64Array, window: Int32Array, windows: number): number[] {
  const counts = new Array<number>(windows + 1).fill(0);
  values.forEach((value, at) => {
    const period = window[at]!;
    if (Number.isFinite(value)) counts[period] = counts[period]! + 1;
  });
  return counts;
}

const minus = (a: Float64Array, b: Float64Array, times: number) => a.map((value, at) => value - times * b[at]!);
const where = (values: Float64Array, present: Float64Array) =>
  values.map((value, at) => (Number.isFinite(present[at]!) ? value : NaN));
