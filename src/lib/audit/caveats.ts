import type { EyeCaveat } from '../model';
import type { FitProblem } from '../statistics';

/** What was left out of the adjustment of one step, and why. */
export type StepCaveat =
  | { code: 'adjusted-for-less'; step: string; nothing: boolean; cases: number }
  | { code: 'not-adjusted'; step: string; why: FitProblem };

/** What should be known before reading anything into the numbers of an audit. */
export type AuditCaveat = EyeCaveat | StepCaveat | { code: 'single-cases'; listsKnown: boolean };
