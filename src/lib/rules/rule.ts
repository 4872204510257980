import type { Measure } from '../model';
import type { Fit, PatternFit } from './fits';
import type { ReasonOf, RuleId } from './reasons';
import type { StepFacts } from './types';

/** A rule: when a pattern is there and how strongly, what it gives to read, and the reason in numbers. */
type RuleOf<Id extends RuleId> = {
  id: Id;
  /** 0 first: safety and what must not be shortened stand before everything else, causes before descriptions. */
  tier: 0 | 1 | 2;
  /** 0 when the pattern is not there; else above 0, larger the clearer. Only compared within a tier. */
  when: (facts: StepFacts) => number;
  /** Checkpoints written for these patterns are given. */
  fits: readonly PatternFit[];
  /**
   * What the record names more precisely than a pattern (an eye, an event or a part): checkpoints for these come first.
   */
  sees?: (facts: StepFacts) => readonly Fit[];
  /** Measures this pattern speaks for, best first. */
  measures?: readonly Measure[];
  /** Measures it rules out. */
  never?: readonly Measure[];
  /**
   * Computed only where the pattern is present; `null` where it is not. Its reminder, if any, is kept with its words.
   */
  because: (facts: StepFacts) => ReasonOf<Id> | null;
};

/** A rule of any id, with the reason of that id and no other. */
export type Rule = { [Id in RuleId]: RuleOf<Id> }[RuleId];

export const yes = (is: boolean, strength = 1): number => (is ? strength : 0);
