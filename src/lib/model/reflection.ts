import { z } from 'zod';
import { caseId, goalId, instant, reflectionId, slug } from './id';
import { version } from './number';
import { label, note, ours } from './written';

export const checkpointAnswers = ['done', 'partly', 'not', 'did-not-arise'] as const;

/** The short note after review. */
export const reflectionSchema = z.strictObject({
  id: reflectionId,
  at: instant,
  caseIds: z.array(caseId),
  goalId: goalId.nullable(),
  stepId: slug.nullable(),
  /** One row a case and checkpoint. */
  answers: z.array(
    z.strictObject({
      caseId,
      checkpointId: ours(z.string(), 'the id of a checkpoint'),
      answer: z.enum(checkpointAnswers),
    }),
  ),
  /**
   * false: given after the times of these cases had been shown; such answers are marked and not compared with times.
   */
  beforeLengths: z.boolean(),
  /** The result of its goal had been read by then. */
  resultKnown: z.literal(true).optional(),
  /** One row a case and protected part. */
  protectedSeen: z.array(z.strictObject({ caseId, protectedPartId: slug, seen: z.boolean() })),
  /** Markdown. What I saw; what I will try. */
  saw: note(z.string()),
  willTry: note(z.string()),
  tags: z.array(label(z.string(), 60)),
  history: z.array(z.strictObject({ at: instant, saw: note(z.string()), willTry: note(z.string()) })),
  invented: z.boolean().default(false),
  version,
});

export type CheckpointAnswer = (typeof checkpointAnswers)[number];
export type Reflection = z.infer<typeof reflectionSchema>;
