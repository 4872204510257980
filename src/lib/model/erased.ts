import { z } from 'zod';

/** Cases that were erased, and in how many of them events had been answered. Counts only: nothing of a case is kept. */
export const erasedSchema = z.strictObject({
  cases: z.number().int().nonnegative(),
  answered: z.number().int().nonnegative(),
});

export type Erased = z.infer<typeof erasedSchema>;

/** What a goal loses with a case. */
export type GoalPart = 'start' | 'window';
