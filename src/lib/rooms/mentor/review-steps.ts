import { same, type Goal, type MentorForm, type MentorReview } from '../../model';
import type { Stretches } from './stretches';

/** What the page asks for next. */
export type ReviewStage = 'none' | 'learner' | 'mentor' | 'done';
export type Rater = 'learner' | 'mentor';

export const latestReview = ({ mentorReviews = [] }: Pick<Goal, 'mentorReviews'>): MentorReview | null =>
  mentorReviews.at(-1) ?? null;

export function stageOf(review: MentorReview | null): ReviewStage {
  if (!review) return 'none';
  if (!review.learner) return 'learner';
  return review.mentor ? 'done' : 'mentor';
}

const withLatest = (goal: Goal, review: MentorReview): Goal => ({
  ...goal,
  mentorReviews: [...(goal.mentorReviews ?? []).slice(0, -1), review],
});

/** A new review of these stretches. One in which nothing was written gives way to it; the same one asked for twice is one. */
export function begun(goal: Goal, stretches: Stretches, now: string): Goal {
  const latest = latestReview(goal);
  const blank = stageOf(latest) === 'learner';
  if (blank && latest && same(latest.caseIds, stretches.caseIds)) return goal;
  const fresh: MentorReview = { at: now, ...stretches, learner: null, mentor: null };
  return blank ? withLatest(goal, fresh) : { ...goal, mentorReviews: [...(goal.mentorReviews ?? []), fresh] };
}

/**
 * A half put to the latest review; `null` where it is not the turn of the one who wrote it: the mentor's comes after the
 * learner's. One that is there is replaced only by a page that had it open; that both had been seen by then is noted.
 * The same half sent twice is stored once.
 * @param replaces when the half that stood open was stored; '' where there was none
 */
export function written(goal: Goal, by: Rater, form: MentorForm, replaces: string): Goal | null {
  const latest = latestReview(goal);
  if (!latest) return null;
  const stored = latest[by];
  if (!stored) return stageOf(latest) === by ? withLatest(goal, { ...latest, [by]: form }) : null;
  if (same({ ...stored, at: form.at }, form)) return goal;
  if (stored.at !== replaces) return null;
  return withLatest(goal, {
    ...latest,
    [by]: form,
    ...(stageOf(latest) === 'done' ? { typedAgain: true as const } : {}),
  });
}
