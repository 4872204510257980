import { z } from 'zod';
import { aimedEyesSchema } from './aimed-eyes';
import { caseId, goalId, instant, resultId, slug } from './id';
import { cannotSaySchema, pauseSchema, resultCaveatSchema } from './result-reasons';
import { ours } from './written';

/**
 * A change on the log scale, exp() of it being the ratio of window to baseline.
 * `low`/`high`: the corrected 95 % interval that is shown; `rawLow`/`rawHigh`: without the allowance for having picked the step.
 */
export const effectSchema = z.strictObject({
  estimate: z.number(),
  low: z.number(),
  high: z.number(),
  rawEstimate: z.number(),
  rawLow: z.number(),
  rawHigh: z.number(),
  se: z.number(),
  df: z.number(),
  nBaseline: z.number().int(),
  nWindow: z.number().int(),
  method: ours(z.string(), 'how it was counted'),
});

export const resultKinds = [
  'paused',
  'shorter',
  'all-round',
  'rest-longer',
  'steadier',
  'longer',
  'little-change',
  'cannot-tell',
] as const;

export const lastingSchema = z.strictObject({
  /** 1 is the first twenty after the window. */
  nth: z.number().int().positive(),
  kind: z.enum(['lasted', 'faded', 'partly', 'not-clear']),
  effect: effectSchema,
  firstEstimate: z.number(),
  /** From the second on: the last two windows together. */
  together: effectSchema.nullable(),
});

const shareSchema = z.strictObject({ such: z.number().int(), of: z.number().int() });

/** Of a goal aimed at certain eyes: what stands beside its result. */
export const aimedOutcomeSchema = z.strictObject({
  eyes: aimedEyesSchema,
  /** Such eyes among the counted cases of the same time in which the fact was entered. */
  baseline: shareSchema,
  window: shareSchema,
  /** Cases by which such eyes are more than their share at the start foretells, where that is clear (one-sided 95 %); else 0. */
  excess: z.number().int().nonnegative(),
  /** *Shorter* did not hold without that many of the shortest cases; the effects are without them. */
  withoutExcess: z.boolean(),
  /** Cases of both periods in which the fact was changed after their times were seen. */
  changedLate: z.number().int().nonnegative(),
  /** The step against the rest in the other eyes of the same time; enters no fit of the result. */
  otherEyes: effectSchema.nullable(),
});

export const outcomeSchema = z.strictObject({
  kind: z.enum(resultKinds),
  /** The measure judged: of time, or of steadiness (ratio of spreads). */
  measure: z.enum(['time', 'steadiness', 'checkpoints', 'safety']),
  /** Against the rest of the operation: the result rests on it. `null` with fewer than three other steps. */
  against: effectSchema.nullable(),
  /** This step alone. */
  plain: effectSchema.nullable(),
  rest: effectSchema.nullable(),
  /** Ratio of mean absolute deviations, window to start, log scale. */
  spread: effectSchema.nullable(),
  /** Why the kind had to be `paused`. */
  paused: z.array(pauseSchema),
  selectionAllowance: z.number(),
  /** log of the steer (half-way between the median and the 20th percentile, over the median); never shown as a target. */
  steer: z.number().nullable(),
  /** The median of the baseline cases, seconds, for "about 15 s a case". */
  baselineMedian: z.number().nullable(),
  /** Range of two thirds of the cases before and in the window, seconds, for steadiness. */
  rangeBaseline: z.tuple([z.number(), z.number()]).nullable(),
  rangeWindow: z.tuple([z.number(), z.number()]).nullable(),
  notes: z.array(
    z.enum([
      'prior-trend',
      'experience',
      'left-out',
      'second-look',
      'lists-unknown',
      'shared-hands',
      'one-list',
      'facts-left-out',
      'neighbour-longer',
    ]),
  ),
  /** "going on as before would have given about −9 %": log scale. */
  priorTrend: z.number().nullable(),
  /** Its 95 % interval. Missing: read before it was kept. */
  priorTrendRange: z.tuple([z.number(), z.number()]).optional(),
  /** Was there a fact of the eye to adjust by? Missing: read before this was kept. */
  adjusted: z.boolean().optional(),
  leftOutSeen: z.number().int(),
  kindWithLeftOut: z.enum(resultKinds).nullable(),
  /** How likely twenty cases were to show a change of a fifth. */
  powerForAFifth: z.number().nullable(),
  /** Why no result can be said, in place of an exception. */
  cannot: cannotSaySchema.nullable(),
  /** Beside *shorter*: steps next to it that took clearly longer against their own rest. Missing: none, or not looked at. */
  neighbours: z
    .array(z.strictObject({ stepId: slug, label: ours(z.string(), 'the label of a step'), effect: effectSchema }))
    .optional(),
  /** Missing: the goal is aimed at no kind of eye. */
  aimed: aimedOutcomeSchema.optional(),
  /** What was left out of the adjustment, and why; and what else should be known. */
  caveats: z.array(resultCaveatSchema),
});

/** Whether it lasted, as it was read: stored once a following twenty, and shown later exactly as it was. */
export const readLastingSchema = z.strictObject({ at: instant, lasting: lastingSchema });

/** Stored once when a window fills; shown later exactly as it was. */
export const storedResultSchema = z.strictObject({
  id: resultId,
  goalId,
  /** first, or the one extension to forty. */
  look: z.enum(['first', 'second']),
  storedAt: instant,
  inputHash: ours(z.string(), 'a hash'),
  baselineIds: z.array(caseId),
  windowIds: z.array(caseId),
  stepId: slug,
  seed: z.number().int(),
  engine: ours(z.string(), 'the version that counted'),
  outcome: outcomeSchema,
  /** Missing: whether it lasted has not been read. */
  lasted: z.array(readLastingSchema).optional(),
});

export type Effect = z.infer<typeof effectSchema>;
export type ResultKind = (typeof resultKinds)[number];
export type AimedOutcome = z.infer<typeof aimedOutcomeSchema>;
export type Lasting = z.infer<typeof lastingSchema>;
export type ReadLasting = z.infer<typeof readLastingSchema>;
export type Outcome = z.infer<typeof outcomeSchema>;
export type StoredResult = z.infer<typeof storedResultSchema>;
