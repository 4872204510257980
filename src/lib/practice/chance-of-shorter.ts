import { columnsCarried, HUBER_K, normalQuantile, tCdf, tQuantile } from '../statistics';
import { upperTail } from './effect';
import { degreesOfFreedom, periodFit, type FitInput, type PeriodFit } from './period-fit';
import { restOfOperation } from './rest-of-operation';
import { sharedCaseDifficulty } from './shared-case-difficulty';
import { practiceThresholds as set } from './thresholds';

export type StartArrays = Omit<FitInput, 'outcome' | 'lead'> & {
  /** ln seconds of the baseline cases, [step][case]; NaN where absent. */
  y: readonly Float64Array[];
  stepIndex: number;
  /** Indices of the steps that may stand for the rest of the operation. */
  others: readonly number[];
};

/** What the baseline cases foretell of a window: the step against the rest, the rest, and how the two go together. */
export type Foretold = {
  against: PeriodFit;
  rest: PeriodFit;
  /** Correlation of their clipped residuals. */
  together: number;
  sharedCaseDifficulty: number;
  /** Facts of the eye given; as many are fitted as baseline cases and window carry together. */
  facts: number;
};

/** `null` where the step, or the rest of the operation, cannot be fitted, or stands in too few cases to claim anything. */
export function foretoldBy({ y, stepIndex, others, columns, list }: StartArrays): Foretold | null {
  const own = y[stepIndex] ?? new Float64Array(list.length).fill(NaN);
  const among = restOfOperation({
    y,
    others,
    columns,
    list,
    lead: [],
    window: new Int32Array(list.length),
    windows: 0,
  });
  const of = (outcome: Float64Array) => periodFit({ outcome, lead: [], columns, list });
  const restThere = among.values.map((value, at) => (Number.isFinite(own[at]) ? value : NaN));
  const [against, rest, plain] = [of(own.map((value, at) => value - (restThere[at] ?? NaN))), of(restThere), of(own)];
  if (against.kind === 'cannot' || rest.kind === 'cannot' || plain.kind === 'cannot') return null;
  if (against.n < set.restCases) return null;
  return {
    against,
    rest,
    together: correlation(against.clipped, rest.clipped),
    sharedCaseDifficulty: sharedCaseDifficulty(plain, [...among.fits.values()], list),
    facts: columns.length,
  };
}

/** Middles of so many equal parts of a normal distribution; one-sided 95 % lies between two of them. */
const PARTS = 40;
const middles = Array.from({ length: PARTS }, (_, part) => normalQuantile((part + 0.5) / PARTS));

/**
 * Chance (0..1) that a window of `size` cases is called *shorter* if this step alone changes by `change` (log scale):
 * every line of that rule, not only the interval. The change of the rest in the window is chance alone; for each value
 * of it the rule asks the estimate against the rest to lie below a limit, and given the rest that estimate is spread as
 * t. Averaged over the rest.
 * @param size at least as many cases as anything is claimed from
 * @param wider the spread taken so many times as large as measured
 */
export function chanceOfShorter(
  foretold: Foretold,
  change: number,
  size: number,
  selectionAllowance: number,
  wider = 1,
): number {
  const d = errorOf(foretold, foretold.against, size, wider);
  const r = errorOf(foretold, foretold.rest, size, wider);
  const { together, sharedCaseDifficulty: times } = foretold;
  const withRest = (share: number) =>
    Math.sqrt(Math.max(0, d.se ** 2 + (share * r.se) ** 2 + 2 * share * together * d.se * r.se));
  const reach = tQuantile(upperTail('first'), d.df);
  const [own, off] = [withRest(1), withRest(1 - times)];
  const sure = (confidence: number) => tQuantile(confidence, r.df) * r.se;
  const spread = d.se * Math.sqrt(1 - together ** 2);
  let sum = 0;
  for (const middle of middles) {
    const rest = middle * r.se;
    let limit = Math.min(-reach * d.se, -rest / set.ownPart);
    if (rest < -sure(set.restShorterConfidence)) limit = Math.min(limit, (times - 1) * rest - reach * off);
    if (rest > sure(set.restLongerConfidence))
      limit = Math.min(limit, -rest - tQuantile(set.ownShorterConfidence, d.df) * own);
    sum += tCdf((limit - selectionAllowance - change - together * d.se * middle) / spread, d.df);
  }
  return sum / PARTS;
}

/**
 * Standard error of the coefficient of a window of `size` cases, and its degrees of freedom: `K·τ·√(deff·V·(1/n₀ + 1/n₁))`.
 * τ the SD that Huber's estimate behaves as if it had, K Huber's correction for so many coefficients, and V = (N − 3)/
 * (N − 3 − q) what q facts of the eye cost that are shared out between the periods by chance (the mean of 1/(1 − R²)
 * where R² is of q columns unrelated to the window).
 */
function errorOf({ facts }: Foretold, fit: PeriodFit, size: number, wider: number): { se: number; df: number } {
  const n = fit.n + size;
  const q = Math.min(facts, columnsCarried(n));
  const within = n - q - 2;
  const { spread, unclipped } = huberSpread(fit);
  const correction = 1 + ((q + 2) * (1 - unclipped)) / (n * unclipped);
  const shared = (n - 3) / (n - 3 - q);
  const lists = fit.lists + Math.max(set.windowLists, Math.round((size * fit.lists) / fit.n));
  return {
    se: wider * correction * spread * Math.sqrt(fit.deff * shared * (1 / fit.n + 1 / size)),
    df: fit.deff > 1 ? degreesOfFreedom(fit.deff, lists, n, lists - 2, within) : within,
  };
}

function huberSpread(fit: PeriodFit): { spread: number; unclipped: number } {
  const limit = HUBER_K * fit.scale;
  let sum = 0;
  let within = 0;
  for (const value of fit.residuals) {
    if (!Number.isFinite(value)) continue;
    sum += Math.min(Math.abs(value), limit) ** 2;
    if (Math.abs(value) < limit) within += 1;
  }
  const unclipped = within / fit.n;
  return { spread: Math.sqrt(sum / fit.freedom) / unclipped, unclipped };
}

const MOST_TOGETHER = 0.999;

function correlation(a: Float64Array, b: Float64Array): number {
  let [ab, aa, bb] = [0, 0, 0];
  a.forEach((value, at) => {
    const other = b[at] ?? NaN;
    if (!Number.isFinite(value * other)) return;
    ab += value * other;
    aa += value * value;
    bb += other * other;
  });
  const found = aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : 0;
  // A step whose own times hardly vary is all rest: at 1 nothing would be left to chance.
  return Math.max(-MOST_TOGETHER, Math.min(MOST_TOGETHER, found));
}
