import { z } from 'zod';
import { resultKinds } from '../model';

/** An effect as ratios of window to start. */
export const effectJsonSchema = z.strictObject({
  ratio: z.number().positive(),
  low: z.number(),
  high: z.number(),
  n_start: z.int(),
  n_window: z.int(),
  method: z.string(),
});

const shareSchema = z.strictObject({ such: z.int(), of: z.int() }).nullable();

/** What came of a goal from one case on. */
export const resultJsonSchema = z.strictObject({
  step: z.string(),
  eyes: z
    .strictObject({
      fact: z.string(),
      level: z.string(),
      label: z.string(),
      start: shareSchema,
      window: shareSchema,
      excess: z.int().nullable(),
      without_excess: z.boolean().nullable(),
      changed_late: z.int().nullable(),
      other_eyes: effectJsonSchema.nullable(),
    })
    .nullable()
    .describe('The kind of eye it is aimed at; null: all eyes. `such` of `of` counted cases with the fact entered.'),
  kind: z.enum(resultKinds),
  effect: effectJsonSchema.nullable(),
  plain: effectJsonSchema.nullable(),
  rest: effectJsonSchema.nullable(),
  spread: effectJsonSchema.nullable(),
  allowance: z.number(),
  steer_s: z
    .number()
    .nullable()
    .describe('Lower end of the expected range, seconds: for the words, never a thing to reach for.'),
  notes: z.array(z.string()),
  paused: z.array(z.string()),
  cannot: z.string().nullable(),
  lasting: z.array(z.strictObject({ nth: z.int().positive(), kind: z.string(), effect: effectJsonSchema })),
});

export type EffectJson = z.infer<typeof effectJsonSchema>;
export type ResultJson = z.infer<typeof resultJsonSchema>;
