import { z } from 'zod';
import { aimedEyesSchema } from './aimed-eyes';
import { erasedSchema } from './erased';
import { caseId, goalId, instant, listId, slug } from './id';
import { mentorReviewSchema } from './mentor-review';
import { sequence } from './number';
import { note, ours } from './written';

export const measures = ['time', 'steadiness', 'checkpoints', 'safety'] as const;

/** A checkpoint as it stood when the goal was set: later edits of the library do not change a goal. */
export const goalCheckpointSchema = z.strictObject({
  id: ours(z.string(), 'an id of a page, or of an own checkpoint'),
  look: note(z.string().min(1)),
});

/** The adjustment frozen on the day: for the chart, the expected range, and "the baseline cases have changed since". */
export const frozenModelSchema = z.strictObject({
  /** Names of the adjustment's columns, in order (`nucleus=hard`, `pupil not entered`). */
  columns: z.array(ours(z.string(), 'ids of facts and levels')),
  coefficients: z.array(z.number()),
  centre: z.array(z.number()),
  median: z.number().positive(),
  p20: z.number().positive(),
});

export const baselineSchema = z.strictObject({
  caseIds: z.array(caseId),
  frozen: frozenModelSchema.nullable(),
  /** Allowance for having picked it, log scale, ≥ 0; and the same for spread. */
  selectionAllowance: z.number().nonnegative(),
  selectionAllowanceSpread: z.number().nonnegative(),
  /** log of the lower end of the expected range over the median; ≤ 0. */
  steer: z.number().nullable(),
  seed: z.number().int(),
  engine: ours(z.string(), 'the version that counted'),
  /** Hash of the baseline cases as they were. */
  hash: ours(z.string(), 'a hash'),
});

export const decisionSchema = z.strictObject({
  at: instant,
  kind: z.enum(['keep', 'second-look', 'change-checkpoints', 'move-on', 'pause', 'resume', 'go-on', 'to-checkpoints']),
  reason: note(z.string(), 300),
  /** Events at the step that were written down by then: another one asks again. Missing: none, or before this was counted. */
  eventsAtStep: z.number().int().positive().optional(),
});

export const goalSchema = z.strictObject({
  id: goalId,
  procedureId: slug,
  stepId: slug,
  measure: z.enum(measures),
  /** Aimed at this kind of eye: other cases belong to neither baseline nor window. Missing: all eyes. */
  eyes: aimedEyesSchema.optional(),
  checkpoints: z.array(goalCheckpointSchema).max(3),
  ifThen: note(z.string()).nullable(),
  /** Protected parts chosen to watch. */
  watch: z.array(slug),
  stopSigns: z.array(ours(z.string(), 'from the page of the step')),
  reminders: z.array(ours(z.string(), 'from the page of the step')),
  baseline: baselineSchema,
  windowLength: z.union([z.literal(20), z.literal(40)]),
  agreed: z.strictObject({ answer: z.enum(['yes', 'not-yet', 'none']), why: note(z.string(), 300).nullable() }),
  /** The view the step was shown on when it was chosen; `eyes`: it takes longer in certain eyes; `own`: a reason given before the views were opened. */
  chosenBy: z.enum(['seconds', 'spread', 'reference', 'eyes', 'safety', 'own']),
  reason: note(z.string(), 300).nullable(),
  setAt: instant,
  /** When a draft was agreed: it runs from then. Missing: agreed when it was set, not agreed yet, or before this was kept. */
  agreedAt: instant.optional(),
  /** Cases after this sequence number can belong to the window, from the next new list on. */
  afterSequence: sequence,
  /** The list under way when the goal was set: its later cases do not count. */
  listAtStart: listId.nullable(),
  /** draft: waiting for the supervisor; closed: decided and done. */
  state: z.enum(['draft', 'running', 'paused', 'closed']),
  decisions: z.array(decisionSchema),
  /** When the surgeon asked to see times of a running window. */
  timesShown: z.array(instant),
  /** Cases of the start, and of the span of the window, that were erased. Missing: none, or before this was counted. */
  erased: z.strictObject({ baseline: erasedSchema, window: erasedSchema }).optional(),
  /** Drills of the step that reached their pass mark, off the patient, as logged. Missing: none, or before this was kept. */
  drillLog: z.array(z.strictObject({ drillId: slug, at: instant })).optional(),
  /** Reviews with a mentor, the first one first. Missing: none, or before they were kept. */
  mentorReviews: z.array(mentorReviewSchema).optional(),
  invented: z.boolean().default(false),
});

export type Measure = (typeof measures)[number];
export type GoalCheckpoint = z.infer<typeof goalCheckpointSchema>;
export type FrozenModel = z.infer<typeof frozenModelSchema>;
export type Baseline = z.infer<typeof baselineSchema>;
export type Decision = z.infer<typeof decisionSchema>;
export type Goal = z.infer<typeof goalSchema>;

/** The moment from which a goal runs: its weeks and its window are counted from it. */
export const runsFrom = ({ setAt, agreedAt }: Pick<Goal, 'setAt' | 'agreedAt'>): string => agreedAt ?? setAt;
