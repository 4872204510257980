import { z } from 'zod';
import { caseId, instant } from './id';
import { note, ours } from './written';

/** How a checkpoint was seen in the stretches watched; three anchors and no number, so that nothing can be added up. */
export const mentorAnchors = ['not-seen', 'with-correction', 'each-time'] as const;

/** What one of the two wrote, apart from the other. A checkpoint that was not rated is missing. */
export const mentorFormSchema = z.strictObject({
  at: instant,
  ratings: z.array(
    z.strictObject({ checkpointId: ours(z.string(), 'the id of a checkpoint'), anchor: z.enum(mentorAnchors) }),
  ),
  saw: note(z.string()),
});

/** One review of a goal with a mentor, who has no name here. */
export const mentorReviewSchema = z.strictObject({
  at: instant,
  /** The cases whose stretches of the goal's step were watched, fixed when the review began, so that paper and screen agree. */
  caseIds: z.array(caseId).min(1).max(3),
  /** By the pair of the step and the latest case beside it; or the latest cases, where the record held no pair. */
  chosen: z.enum(['pair-and-latest', 'latest']),
  learner: mentorFormSchema.nullable(),
  /** Stored only after the learner's. */
  mentor: mentorFormSchema.nullable(),
  /** A half was typed again after both had been seen side by side. Missing: none was. */
  typedAgain: z.literal(true).optional(),
});

export type MentorAnchor = (typeof mentorAnchors)[number];
export type MentorForm = z.infer<typeof mentorFormSchema>;
export type MentorReview = z.infer<typeof mentorReviewSchema>;
