import { z } from 'zod';
import { countOfCases } from './number';

/** Cases that were erased, and in how many of them events had been answered. Counts only: nothing of a case is kept. */
export const erasedSchema = z.strictObject({
  cases: countOfCases,
  answered: countOfCases,
});

export type Erased = z.infer<typeof erasedSchema>;

/** What a goal loses with a case. */
export type GoalPart = 'baseline' | 'window';
