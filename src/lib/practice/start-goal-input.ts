import type { AimedEyes, Case, Goal, ListRecord, Measure, Procedure, ReferenceSet } from '../model';

/** What the start of a goal is fixed from. */
export type StartGoalInput = {
  /** The record; what counts is found here. */
  cases: readonly Case[];
  lists: readonly ListRecord[];
  procedure: Procedure;
  references: readonly ReferenceSet[];
  stepId: string;
  measure: Measure;
  /** Only cases with this kind of eye. */
  eyes?: AimedEyes | null;
  chosenBy: Goal['chosenBy'];
  seed: number;
  engine: string;
  /** Sequence number: only cases before it. */
  from?: number;
  /** Sequence number: only cases from it on, for a new goal on a step that has changed. */
  notBefore?: number;
  /** Other steps that were themselves under a goal in these cases. */
  underGoal?: readonly string[];
  resamples?: number;
  /** Cases the window is planned to have; 20 unless said. */
  windowLength?: 20 | 40;
};
