import { z } from 'zod';

/** One thing wrong with what came in. `row` counts from 1 with the heading as row 1, as a spreadsheet shows it. */
export const problemSchema = z.strictObject({
  row: z.number().int().positive().nullable(),
  column: z.string().nullable(),
  value: z.string().nullable(),
  /** What is wrong and what to do, one or two plain sentences. */
  why: z.string().min(1),
  /** `refused`: not taken. `queried`: taken, and asked about. */
  weight: z.enum(['refused', 'queried']),
});

export type Problem = z.infer<typeof problemSchema>;
