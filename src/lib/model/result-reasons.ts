import { z } from 'zod';
import { ours } from './written';

/**
 * Why a result says nothing, why it is paused, and what should be known beside it: codes with their numbers, which
 * `words/` says. Labels are kept as they were when it was read, so that no later name of a step changes it.
 */
const count = z.number().int().nonnegative();
const label = ours(z.string(), 'a label of the procedure');
const sentence = ours(z.string(), 'a sentence of an earlier version of the program');

/** A number that a caller gives. */
export const givenNumbers = [
  'selection-allowance',
  'selection-allowance-spread',
  'steer',
  'baseline-median',
  'baseline-p20',
  'adjustment',
  'seed',
  'resamples',
  'permutations',
  'serious-rate',
  'cases-before',
  'from',
  'not-before',
  'window-length',
] as const;

/** Something that has to be a number is not one (NaN, infinite). */
export const notANumberSchema = z.discriminatedUnion('what', [
  z.strictObject({ code: z.literal('not-a-number'), what: z.literal('given'), given: z.enum(givenNumbers) }),
  z.strictObject({ code: z.literal('not-a-number'), what: z.literal('case'), case: ours(z.string(), 'its code') }),
  z.strictObject({ code: z.literal('not-a-number'), what: z.enum(['list', 'reference-set', 'fact']) }),
]);

const cannotFit = [
  z.strictObject({ code: z.enum(['too-few', 'no-variation', 'not-told-apart', 'not-determined']) }),
  notANumberSchema,
] as const;

/** Why two periods of cases cannot be compared by a regression. */
export const cannotFitSchema = z.discriminatedUnion('code', cannotFit);

const cannotJudge = [
  ...cannotFit,
  z.strictObject({ code: z.literal('not-a-time-goal'), measure: z.enum(['checkpoints', 'safety']) }),
  z.strictObject({ code: z.enum(['few-cases', 'few-other-steps']) }),
  z.strictObject({ code: z.literal('few-rest-cases'), baseline: count, windows: z.array(count) }),
  z.strictObject({ code: z.literal('few-lists'), lists: count }),
  z.strictObject({ code: z.enum(['few-cases-to-vary', 'most-the-same', 'hardly-vary']) }),
] as const;

/** Why nothing can be said of a window. */
export const cannotJudgeSchema = z.discriminatedUnion('code', cannotJudge);

/** The same as it is stored; `was`: the code that stood beside a sentence of an earlier version. */
export const cannotSaySchema = z.discriminatedUnion('code', [
  ...cannotJudge,
  z.strictObject({ code: z.literal('as-read'), was: ours(z.string(), 'a code'), sentence }),
]);

const seen = z.strictObject({ seen: count, looked: count });

/** Why no change in time may be called a result. A step that is not known is `null`. */
export const gateReasonSchema = z.discriminatedUnion('code', [
  z.strictObject({ code: z.literal('unreviewed'), event: label, step: label.nullable(), timed: z.boolean() }),
  z.strictObject({ code: z.literal('two-serious'), count, steps: z.array(label.nullable()) }),
  z.strictObject({ code: z.literal('monitor') }),
  z.strictObject({ code: z.literal('protected-part'), part: label, start: seen, window: seen }),
]);

export const pauseSchema = z.discriminatedUnion('code', [
  ...gateReasonSchema.options,
  z.strictObject({ code: z.literal('as-read'), sentence }),
]);

/** What of a fact of the eye was left out of the adjustment. */
export const eyeCaveatSchema = z.discriminatedUnion('code', [
  z.strictObject({ code: z.literal('few-entered'), fact: label, entered: count, of: count }),
  z.strictObject({ code: z.literal('few-differ'), fact: label, differ: count, of: count }),
  z.strictObject({ code: z.literal('rare-levels'), fact: label, rare: count, of: count }),
  z.strictObject({ code: z.enum(['all-the-same', 'too-few-from', 'tied', 'partly-tied', 'retired']), fact: label }),
]);

/** What should be known beside a result. */
export const resultCaveatSchema = z.discriminatedUnion('code', [
  ...eyeCaveatSchema.options,
  z.strictObject({ code: z.literal('gone-since'), cases: count }),
  z.strictObject({ code: z.literal('paused-and-cannot'), why: cannotJudgeSchema }),
  z.strictObject({ code: z.literal('as-read'), sentence }),
]);

export type GivenNumber = (typeof givenNumbers)[number];
export type NotANumber = z.infer<typeof notANumberSchema>;
export type CannotFit = z.infer<typeof cannotFitSchema>;
export type CannotJudge = z.infer<typeof cannotJudgeSchema>;
export type CannotSay = z.infer<typeof cannotSaySchema>;
export type GateReason = z.infer<typeof gateReasonSchema>;
export type Pause = z.infer<typeof pauseSchema>;
export type EyeCaveat = z.infer<typeof eyeCaveatSchema>;
export type ResultCaveat = z.infer<typeof resultCaveatSchema>;
