import type { Case, EyeCaveat, Procedure } from '../model';
import type { AuditCaveat } from './caveats';

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
  /** What was left out, and why: pupil, the same in all cases. */
  caveats: readonly EyeCaveat[];
};

/** Why the difference of a step cannot be said. */
export type DifferenceCannot =
  { code: 'too-few-cases'; cases: number; needed: number } | { code: 'too-few-lists' | 'all-equal' | 'whole-seconds' };

export type Interval = { low: number; high: number };

export type StepAudit = {
  stepId: string;
  label: string;
  optional: boolean;
  /** Its timings stay, it is no longer asked for, and nothing is suggested on it. */
  retired: boolean;
  notToShorten: boolean;
  hasProtectedParts: boolean;
  /** Cases in which the surgeon did the step. */
  n: number;
  /** Seconds as recorded; `null` when n = 0. */
  median: number | null;
  /** As recorded; `null` below five cases: there is no fifth of them. */
  p20: number | null;
  /** The same adjusted for the eye, on the scale on which the median is the recorded one; `null`: nothing was taken out. */
  adjusted: { median: number; p20: number } | null;
  /** Median less 20th percentile, as recorded; where it cannot be said, `differenceCannot` says why. */
  difference: number | null;
  /**
   * Where a fact of the eye shows for the step, the difference told apart: what is left among the same kind of eye, and
   * what goes with the eye (not below 0). `null` where none shows.
   */
  differenceSameEyes: number | null;
  differenceWithEye: number | null;
  /**
   * 95 % interval of the part by which steps are ranked: among the same kind of eye where it is split, else the whole.
   */
  differenceInterval: Interval | null;
  differenceCannot: DifferenceCannot | null;
  /** exp(1.4826 MAD) ≥ 1 of adjusted times; and two thirds of the cases as recorded (17th to 83rd percentile), seconds. */
  spread: number | null;
  spreadInterval: Interval | null;
  twoThirds: Interval | null;
  /** Share of the sum of the medians, 0..1. */
  share: number | null;
  /** Cases in which the step was returned to, of those where that is known, and the mean number of times a case; `null`: not known. */
  returnedTo: { cases: number; of: number; perCase: number } | null;
  waitingPerCase: number;
  waitingReason: string | null;
  /** Ratio per 20 cases; `null` where order is unknown or too little. */
  overTime: (Interval & { ratio: number }) | null;
  reference:
    | (Interval & {
        n: number;
        readers: number;
        /** Seconds, as recorded. */
        median: number;
        /** Of times adjusted for the eye on both sides, by the surgeon's own coefficients. */
        ratio: number;
        spreadRatio: (Interval & { ratio: number }) | null;
      })
    | null;
  /** Share of resamples in which the step came first on each view; `null` where the view can't be said. */
  first: { seconds: number | null; spread: number | null; reference: number | null };
  /** For the strip: each case's adjusted time over the median (the same of adjusted and recorded times); `seconds` is the step time as recorded. */
  dots: readonly { caseId: string; code: string; ratio: number; seconds: number }[];
};

/** Some cases of a step as recorded: how many, from how many lists, and what they took, seconds. */
export type EyeGroup = { n: number; lists: number; median: number; p20: number | null };

/** A fact of the eye and one step: the eyes that have it, those it is compared with, and what it does elsewhere. */
export type EyeGroups = {
  /** Levels that count as having it; of a yes/no fact 'true' or 'false'. */
  levels: readonly string[];
  with: EyeGroup;
  without: EyeGroup;
  /** Median ratio, unshrunken, of the same fact at the other steps; `null` where no other step can tell. */
  elsewhere: number | null;
};

export type Pattern = {
  stepId: string;
  factor: string;
  /** "nucleus hard or very hard", "last third of the list", "after a long hydrodissection". */
  label: string;
  kind: 'fact' | 'place' | 'waiting-before' | 'returned-to' | 'earlier-step' | 'over-time' | 'bimodality';
  earlierStepId: string | null;
  /** The fact of the eye it is about; `null` for anything else. */
  factId: string | null;
  nWith: number;
  nWithout: number;
  /** For a yes/no fact or a level of the eye; `null` for anything else. */
  eye: EyeGroups | null;
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
  /** Are there two cases that were not noted by hand, so that their recordings can be watched? */
  twoToWatch: boolean;
  steps: readonly StepAudit[];
  patterns: readonly Pattern[];
  /** Factors looked at per step and not clear, for "what was looked at". */
  lookedAt: readonly { stepId: string; labels: readonly string[] }[];
  waiting: { perCase: number; reason: string | null; n: number };
  /** What was left out of the adjustment; and whether single cases had to be resampled. */
  caveats: readonly AuditCaveat[];
  cannot: { code: 'no-cases' | 'no-steps' } | null;
};
