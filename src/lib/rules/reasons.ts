import type { StandingView } from './standing';

/*
 * Why something is suggested or given: a code, the numbers it rests on, and the names from the record it is about.
 * Times in seconds, shares 0..1, ratios as multiples. words/ says them; nothing here is a sentence, so that a statistician can
 * read the numbers and a translator the words.
 */

/** A case of the shortest fifth that had an event, or protected parts (by label) that were not seen. */
export type ShortCase = { code: string; event: boolean; notSeen: readonly string[] };

type None = Readonly<Record<string, never>>;
type Range = { low: number; high: number };
/** A member for each code, so that a code alone tells its numbers. */
type Of<Code extends string, Numbers, Names = unknown> = Code extends string
  ? { code: Code; numbers: Numbers } & Names
  : never;
type OfStep = { stepId: string };

/** A multiple with its interval. */
type Times = { ratio: number; low: number; high: number };
/** A multiple against a reference set, and whose cases that holds. */
type AgainstReference = Times & { n: number; readers: number };

/** Why a step is suggested, or none is. */
export type SuggestionReason =
  | Of<'serious-unreviewed' | 'serious-tied', { events: number }, OfStep>
  | Of<'unreviewed-elsewhere', { events: number }>
  | Of<'monitor', None>
  | Of<'not-enough', { cases: number; moreCases: number; moreLists: number }>
  | Of<'waiting', { perCase: number }, { waitingReason: string | null }>
  /** Not suggested, because its latest event or near miss is `casesAgo`, and `more` cases have to pass; `kind` of that event. */
  | Of<'held-back', { casesAgo: number; more: number }, OfStep & { kind: string | null }>
  /** The step that came first most often on a view, yet not often enough. */
  | Of<'first-too-seldom', { share: number }, OfStep & { view: StandingView }>
  /** `alone`: no other step stands out beside it. `sameEyes`: seconds among the same kind of eye. */
  | Of<'seconds', { seconds: number; range: Range | null }, OfStep & { alone: boolean; sameEyes: boolean }>
  | Of<'spread', { twoThirds: Range | null }, OfStep & { alone: boolean }>
  | Of<'reference', AgainstReference, OfStep>
  | Of<'came-first', { share: number }, OfStep & { resampled: 'lists' | 'cases' }>
  | Of<'came-first-elsewhere', { share: number }, OfStep & { view: StandingView }>;

/** Why a rule fired for a step: the code is the id of the rule. */
export type PlanReason =
  | Of<'event', { unreviewed: number; last100: number }, OfStep>
  | Of<'event-recent', { casesAgo: number; quietFor: number }, OfStep>
  | Of<'hasty', None, OfStep & { cases: readonly ShortCase[] }>
  | Of<'protected-parts', None, { missed: readonly { label: string; seen: number; looked: number }[] }>
  | Of<'taken-over', { takenOver: number; cases: number }, OfStep>
  | Of<'not-to-shorten', None, OfStep>
  | Of<'after-earlier', Times, OfStep & { earlierStepId: string | null }>
  | Of<'certain-eyes' | 'circumstances', Times & { nWith: number }, OfStep & { label: string }>
  | Of<'late-in-list' | 'first-on-list', Times, OfStep>
  | Of<'after-a-break', { weeks: number }>
  | Of<'renewed', { cases: number; of: number }, OfStep & { earlierStepId: string }>
  /** `label`: over which cases. */
  | Of<'over-time', Times, OfStep & { label: string }>
  | Of<'bimodality', None, OfStep & { label: string }>
  | Of<'returned-to', { cases: number; of: number }, OfStep>
  | Of<'mostly-waiting', { perCase: number; cases: number }, OfStep & { waitingReason: string | null }>
  | Of<'varies', { twoThirds: Range | null }, OfStep & { shorterFifthClean: boolean | null }>
  /** Against the reference set where it is longer than that; else by the share of resamples in which it held most seconds. */
  | Of<'longer', { share: number; reference: AgainstReference | null }, OfStep>;

export type RuleId = PlanReason['code'];
export type ReasonOf<Id extends RuleId> = Extract<PlanReason, { code: Id }>;

/** Why a checkpoint or a drill is given: what fired, or nothing in particular. */
export type GivenReason =
  | PlanReason
  | Of<'any-case' | 'off-the-patient', None, OfStep>
  /** Written for the kind of eye the goal is aimed at. */
  | Of<'aimed-eyes', None, OfStep & { label: string }>
  | Of<'pair', None, { shorter: string; longer: string }>;

/** What a reason keeps of a reference set. */
export const againstReference = (reference: AgainstReference | null): AgainstReference | null =>
  reference && {
    ratio: reference.ratio,
    low: reference.low,
    high: reference.high,
    n: reference.n,
    readers: reference.readers,
  };
