import type { Goal, MentorForm, MentorReview } from '../../model';
import { sideBySideWords } from '../../words';
import { stageOf } from './review-steps';

/** A review laid side by side: a line a checkpoint, and what the two wrote; nothing is counted or added up. */
export type SideBySide = {
  lines: readonly { look: string; words: string }[];
  wrote: readonly { who: string; text: string }[];
  typedAgain: string | null;
};

/** How one of the two saw a checkpoint; `null`: left open. */
export const anchorIn = (form: MentorForm | null, checkpointId: string) =>
  form?.ratings.find((each) => each.checkpointId === checkpointId)?.anchor ?? null;

/** @param who what the surgeon is called: `You` on a screen of theirs, `Surgeon` in a report for others */
export function sideBySide(
  { checkpoints }: Pick<Goal, 'checkpoints'>,
  { learner, mentor, typedAgain }: MentorReview,
  who = 'You',
): SideBySide {
  return {
    lines: checkpoints.map(({ id, look }) => ({
      look,
      words: sideBySideWords(anchorIn(learner, id), anchorIn(mentor, id), who),
    })),
    wrote: [
      ...(learner?.saw ? [{ who, text: learner.saw }] : []),
      ...(mentor?.saw ? [{ who: 'Mentor', text: mentor.saw }] : []),
    ],
    typedAgain: typedAgain ? 'A half was typed again after both had been seen.' : null,
  };
}

/** Reviews of a goal that both have written, the latest first: a half alone stays out of sight. */
export const fullReviews = ({ mentorReviews = [] }: Pick<Goal, 'mentorReviews'>): MentorReview[] =>
  mentorReviews.filter((each) => stageOf(each) === 'done').reverse();
