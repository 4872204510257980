/** Which times are meant: those of the same kind of eye alone, and whether they are adjusted for the eye. */
export type OfTimes = { sameEyes: boolean; adjusted: boolean };

/** Why a case is one of the two. */
export type PairReason =
  | { code: 'shorter-part' | 'longer-quarter'; times: OfTimes }
  | { code: 'not-returned-to' | 'no-event' | 'protected-parts-seen' };

export type PairCase = {
  caseId: string;
  code: string;
  /** As recorded, and adjusted for the eye. */
  seconds: number;
  adjusted: number;
  hasRecording: boolean;
  /** Known of it: answered with no event, and not returned to. */
  uneventful: boolean;
  /** Where in the recording: seconds from its start; empty where only lengths are known. */
  stretches: readonly { start: number; end: number }[];
  /** Why this one. */
  why: readonly PairReason[];
};

/** What should be known before reading anything into a pair; `of`: the code of the one case, or `null`: of neither. */
export type PairCaveat = { code: 'no-fact-in-both' } | { code: 'events-not-answered'; of: string | null };

/** Why there is no pair. */
export type PairCannot =
  | { code: 'no-such-step' | 'hardly-differ' | 'no-other' }
  | { code: 'too-few-cases'; needed: number; cases: number }
  | { code: 'none-undisturbed'; times: OfTimes };

/** Two recordings worth seeing again: a shorter, uneventful one and a longer one, of the same kind of eye. */
export type Pair =
  | {
      kind: 'pair';
      stepId: string;
      shorter: PairCase;
      longer: PairCase;
      /** What the two eyes share, and where they differ: "nucleus medium". */
      same: readonly string[];
      different: readonly string[];
      caveats: readonly PairCaveat[];
    }
  | { kind: 'cannot'; why: PairCannot };
