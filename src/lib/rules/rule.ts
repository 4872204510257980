import type { Fit } from './fits';
import type { StepFacts } from './types';

export type Measure = 'time' | 'steadiness' | 'checkpoints' | 'safety';

/** A rule: when a pattern is there and how strongly, what it gives to read, and the reason in words. */
export type Rule = {
  id: string;
  /** 0 first: safety and what must not be shortened stand before everything else, causes before descriptions. */
  tier: 0 | 1 | 2;
  /** 0 when the pattern is not there; else above 0, larger the clearer. Only compared within a tier. */
  when: (facts: StepFacts) => number;
  /** Checkpoints written for these patterns are given. */
  fits: readonly Fit[];
  /** What the record names closer than a pattern, an eye, an event or a part: checkpoints for these come first. */
  sees?: (facts: StepFacts) => readonly Fit[];
  /** Beside the step's own reminders. */
  reminders?: readonly string[];
  /** Measures this pattern speaks for, best first. */
  measures?: readonly Measure[];
  /** Measures it rules out. */
  never?: readonly Measure[];
  because: (facts: StepFacts) => string;
};

export const yes = (is: boolean, strength = 1): number => (is ? strength : 0);
