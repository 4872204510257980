import { z } from 'zod';

const comparedSchema = z.strictObject({
  named: z.enum(['shorter', 'longer']).nullable().describe('What is said of it; null: nothing is clear.'),
  ratio: z.number().positive().nullable().describe('Of the later stretch to the earlier; null: see `cannot`.'),
  low: z.number().nullable(),
  high: z.number().nullable(),
  method: z.string().nullable(),
  cannot: z.strictObject({ code: z.string(), because: z.string() }).nullable(),
});

const stretchSchema = z.strictObject({ from: z.string(), to: z.string(), cases: z.int(), lists: z.int().nullable() });

/** Two stretches compared: ratios of the later to the earlier, medians as recorded in seconds. */
export const compareJsonSchema = z.strictObject({
  fixed: z.boolean(),
  alpha: z.number().nullable().describe('Chance that anything is named when nothing has changed, as it was set.'),
  earlier: stretchSchema,
  later: stretchSchema,
  said: z.string(),
  steps: z.array(
    comparedSchema.extend({
      step: z.string(),
      label: z.string(),
      n: z.tuple([z.int(), z.int()]).describe('Earlier, later.'),
      median_s: z.tuple([z.number().nullable(), z.number().nullable()]),
    }),
  ),
  whole: comparedSchema.nullable(),
  cannot: z.strictObject({ code: z.string(), because: z.string() }).nullable(),
});

export type ComparedJson = z.infer<typeof comparedSchema>;
export type CompareJson = z.infer<typeof compareJsonSchema>;
