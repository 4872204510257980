import type { AimedEyes, Case, ListRecord, Measure, Procedure, Baseline } from '../model';
import type { Look } from './effect';

/** What a result is read from. */
export type ResultInput = {
  /** The whole record: counted cases, and for safety those left out. */
  cases: readonly Case[];
  lists: readonly ListRecord[];
  procedure: Procedure;
  baseline: Pick<Baseline, 'caseIds' | 'selectionAllowance' | 'selectionAllowanceSpread' | 'steer' | 'frozen'>;
  windowIds: readonly string[];
  stepId: string;
  measure: Measure;
  /** The kind of eye the goal is aimed at; its baseline cases and window hold only such cases. */
  eyes?: AimedEyes | null;
  look: Look;
  seed: number;
  /** Protected parts chosen to watch. */
  watch?: readonly string[];
  /** Steps that were themselves under a goal in these cases. */
  underGoal?: readonly string[];
  /** Rate of serious events set beforehand, with its source; else the published one. */
  seriousRate?: { rate: number; source: string } | null;
  /** Cases of this procedure before the record began, if said; and whether in training. */
  casesBefore?: number | null;
  inTraining?: boolean | null;
  permutations?: number;
};
