import type { CannotSay, Case, Procedure } from '../model';

/**
 * Step times of some cases in order of time. Seconds; NaN where a step is absent
 * (not performed, or by other hands): absent is never 0.
 */
export type StepTable = {
  procedure: Procedure;
  cases: readonly Case[];
  stepIds: readonly string[];
  /** [step][case] */
  seconds: readonly Float64Array[];
  returnedTo: readonly Float64Array[];
  waiting: readonly Float64Array[];
  /** List number of each case, from 0, as used for resampling. */
  list: Int32Array;
  listCount: number;
  /** Where the lists come from; `blocks`: neither lists nor dates known, so eight neighbours count as one list. */
  listsFrom: 'lists' | 'dates' | 'blocks';
  orderKnown: boolean;
};

/** Facts of the eye as centred columns of a design matrix, with what was left out and why. */
export type EyeColumns = {
  names: readonly string[];
  /** [column][case], centred at the typical case. */
  columns: readonly Float64Array[];
  /** What a new case's raw column value is compared with. */
  centre: readonly number[];
  /** Sentences: "Pupil is not used: the same in all cases." */
  said: readonly string[];
};

export type Interval = { low: number; high: number };

export type StepAudit = {
  stepId: string;
  label: string;
  optional: boolean;
  /** Its timings stay, it is no longer asked for, and nothing is suggested on it. */
  retired: boolean;
  notToShorten: boolean;
  hasProtectedParts: boolean;
  /** Cases in which the step was done by own hands. */
  n: number;
  /** Adjusted seconds; `null` when n = 0. */
  median: number | null;
  /** `null` below five cases: there is no fifth of them. */
  p20: number | null;
  /** Median less 20th percentile, never without its interval; where it cannot be said, `differenceCannot` says why. */
  difference: number | null;
  differenceInterval: Interval | null;
  differenceCannot: CannotSay | null;
  /** exp(1.4826 MAD) ≥ 1, and the usual range in seconds. */
  spread: number | null;
  spreadInterval: Interval | null;
  usualRange: Interval | null;
  /** Share of the sum of the medians, 0..1. */
  share: number | null;
  returnedToPerCase: number | null;
  waitingPerCase: number;
  waitingReason: string | null;
  /** Ratio per 20 cases; `null` where order is unknown or too little. */
  overTime: (Interval & { ratio: number }) | null;
  reference:
    | (Interval & {
        n: number;
        readers: number;
        median: number;
        ratio: number;
        spreadRatio: (Interval & { ratio: number }) | null;
      })
    | null;
  /** Share of resamples in which the step came first on each view; `null` where the view can't be said. */
  first: { seconds: number | null; spread: number | null; reference: number | null };
  /** For the strip: each case's adjusted time over the median; `seconds` is the step time as recorded. */
  dots: readonly { caseId: string; code: string; ratio: number; seconds: number }[];
};

export type Pattern = {
  stepId: string;
  factor: string;
  /** "nucleus hard or very hard", "last third of the list", "after a long hydrodissection". */
  label: string;
  kind: 'fact' | 'place' | 'waiting-before' | 'returned-to' | 'earlier-step' | 'over-time' | 'bimodality';
  earlierStepId: string | null;
  nWith: number;
  nWithout: number;
  /** Ratio of times with to without, shrunk; with its interval. */
  ratio: number;
  low: number;
  high: number;
  shown: boolean;
};

/** How far the record goes: what is missing before anything can be suggested. */
export type Enough = { enough: boolean; cases: number; lists: number | null; moreCases: number; moreLists: number };

export type Audit = {
  procedure: Procedure;
  /** Cases counted and shown. */
  caseIds: readonly string[];
  listCount: number | null;
  listsFrom: StepTable['listsFrom'];
  orderKnown: boolean;
  seed: number;
  resamples: number;
  enough: Enough;
  steps: readonly StepAudit[];
  patterns: readonly Pattern[];
  /** Factors looked at per step and not clear, for "what was looked at". */
  lookedAt: readonly { stepId: string; labels: readonly string[] }[];
  waiting: { perCase: number; reason: string | null; n: number };
  /** Sentences on what was left out of the adjustment. */
  said: readonly string[];
  cannot: CannotSay | null;
};
