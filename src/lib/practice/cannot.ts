import type { CannotFit, NotANumber } from '../model';

/** Too little data, with the reason as a code and its numbers: a returned case, never an exception. */
export type Cannot<Why extends { code: string }> = { kind: 'cannot'; why: Why };

export const cannot = <const Why extends { code: string }>(why: Why): Cannot<Why> => ({ kind: 'cannot', why });

/** Why no goal can start from these cases. */
export type CannotStart =
  | NotANumber
  | { code: 'unknown-step'; procedure: string; step: string }
  | { code: 'order-unknown' | 'no-variation' }
  /** `eyes`: the kind of eye counted, if one. `since`: counted from the change an earlier goal on this step ended with. */
  | { code: 'few-cases'; counted: number; needed: number; eyes: string | null; since: boolean }
  | { code: 'few-lists'; lists: number; needed: number };

/** Why one step, or the whole operation, cannot be compared between two stretches of a record. */
export type CannotCompare =
  CannotFit | { code: 'few-cases'; needed: number } | { code: 'few-other-steps' | 'few-rest-cases' | 'few-lists' };

/** Why two stretches cannot be compared at all. */
export type CannotLookBack =
  | NotANumber
  | { code: 'in-both'; cases: number }
  | { code: 'few-cases'; needed: number; listsKnown: boolean; earlier: number; later: number }
  | { code: 'few-lists'; needed: number; earlier: number; later: number };
