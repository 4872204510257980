import type { Pattern, StepAudit } from '../audit/types';
import type { Measure } from '../model';
import type { CertainEyes, CertainEyesReason } from './certain-eyes';
import type { EyeFit, Fit } from './fits';
import type { GivenReason, PlanReason, ReasonOf, ShortCase, SuggestionReason } from './reasons';
import type { StandingView } from './standing';

/** What the record suggests, as data; words/ turns it into sentences. */
export type Suggestion = {
  kind:
    'safety' | 'waiting' | 'time' | 'steadiness' | 'level' | 'kept' | 'eyes' | 'held-back' | 'nothing' | 'not-enough';
  /** Suggested step first; two or more when they cannot be told apart. */
  steps: readonly string[];
  /** The view the suggestion stands out on. */
  view: StandingView | 'safety' | null;
  /** Steps the suggested one cannot be told apart from on its view; it was taken because it stands out on a second view too. */
  level?: { with: readonly string[]; second: StandingView };
  /** "Also worth a look", each with the view it stands out on. */
  also: readonly { stepId: string; view: StandingView }[];
  because: readonly SuggestionReason[];
  /** A kind of eye in which a step takes longer: the suggestion itself (`eyes`), or worth a look beside it. */
  eyes?: CertainEyes & { because: readonly CertainEyesReason[] };
};

/** What to read and rehearse, from the rules: at most three checkpoints, at least one stop sign and one drill. */
export type PlanDraft = {
  stepId: string;
  measures: readonly Measure[];
  checkpoints: readonly { id: string; look: string; why: string; because: GivenReason }[];
  /** Those of the step's page; the rules' own reminders are kept with the words of their reasons. */
  reminders: readonly string[];
  stop: readonly string[];
  drills: readonly { id: string; where: string; minutes: number; do: string; passed: string; because: GivenReason }[];
  /** Earlier steps to look at first, by association only. */
  earlierFirst: readonly { stepId: string; because: ReasonOf<'after-earlier'> }[];
  /** Protected parts to watch, least often seen first; at least one where the step has protected parts. */
  watch: readonly string[];
  /** Codes of the two recordings to watch, if there is such a pair. */
  pair: { shorter: string; longer: string } | null;
  because: readonly PlanReason[];
};

export type Source =
  { mark: string; kind: 'published' | 'from-memory'; ref: string } | { mark: 'c'; kind: 'common-practice' };

/** A step's written guidance, as content hands it in (an argument: rules read no files). */
export type Guidance = {
  procedureId: string;
  step: string;
  title: string;
  aim: string;
  /** Parts and checks that are never shortened. */
  protectedParts: readonly string[];
  /** `notFor`: kinds of eye in which the checkpoint would be wrong, so that no rule gives it there. */
  checkpoints: readonly { id: string; look: string; why: string; fits: readonly Fit[]; notFor: readonly EyeFit[] }[];
  reminders: readonly string[];
  stop: readonly string[];
  earlier: readonly string[];
  /** `passed`: what counts as done, as a rule three in a row. */
  drills: readonly { id: string; where: string; minutes: number; do: string; passed: string; fits: readonly Fit[] }[];
  /** Each with the mark by which a sentence cites it: p1, m1, c. */
  sources: readonly Source[];
  /** A blank table to fill in on paper for the surgeon's own machine. */
  worksheet: { title: string; lead: string; columns: readonly string[]; rows: readonly string[] } | null;
  reviewed: string | null;
  /** Texts above that cite a source, as they are in the file: without marks → with their marks. */
  marked: Readonly<Record<string, string>>;
  /** Markdown body, with its marks: the short read. */
  body: string;
};

/** Events tied to one step, as the suggestion needs them. */
export type StepSafety = {
  stepId: string;
  /** Serious events that still wait for a written review, anywhere in the record. */
  seriousUnreviewed: number;
  /** Serious events in the last 100 answered cases. */
  seriousLast100: number;
  /** Counted cases since the latest event or near miss tied to it; `null`: none is written down. */
  casesSinceLatest: number | null;
  /** Kinds of the events that tie it here: those waiting for review first, then of the latest such case backwards. */
  kinds: readonly string[];
};

export type SafetyFacts = {
  steps: readonly StepSafety[];
  /** The monitor of serious events has signalled and waits for its review. */
  monitorSignalled: boolean;
  /** Serious events waiting for review that are tied to no step of the audit. */
  unreviewedElsewhere: number;
};

/** What the rules look at for one step. Made from an audit and its cases by `stepFactsOf`. */
export type StepFacts = {
  step: StepAudit;
  /** Cases shown in the audit. */
  cases: number;
  /** Patterns of this step that are shown. */
  patterns: readonly Pattern[];
  protectedParts: readonly { id: string; label: string; seen: number; looked: number }[];
  safety: StepSafety;
  /**
   * In the surgeon's own shortest fifth: no event and no protected part missed? `null`: not known for enough of them.
   */
  shorterFifthClean: boolean | null;
  /** The cases of that fifth for which it is not so. */
  shorterFifthMissed: readonly ShortCase[];
  /** In how many of the cases shown the step was taken over. */
  takenOver: number;
  /** An earlier step this one builds on that is often returned to (a fill that has to be renewed), the most often one. */
  renewed: { stepId: string; cases: number; of: number; perCase: number } | null;
  /** Whole weeks between the latest dated list and the one before it; `null`: fewer than two dated lists. */
  breakWeeks: number | null;
  /** In how many cases waiting was noted at this step. */
  waitingCases: number;
  /** Are there two cases shown that were not noted by hand? */
  twoToWatch: boolean;
  /** Two recordings to watch, if the record holds such a pair. */
  pair: { shorter: string; longer: string } | null;
};
