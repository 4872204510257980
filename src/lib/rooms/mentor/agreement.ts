import type { Goal, MentorAnchor } from '../../model';
import { reviewedWords } from '../../words';
import { monthWords } from '../forms/when-words';
import { anchorIn, fullReviews, sideBySide, type SideBySide } from './side-by-side';

/** The latest review that both have written, in words, for pages about the goal; `null`: there is none yet. */
export type Agreement = { lead: string; review: SideBySide };

/** @param who what the surgeon is called */
export function agreementOf(goal: Pick<Goal, 'checkpoints' | 'mentorReviews'>, who = 'You'): Agreement | null {
  const [latest, ...earlier] = fullReviews(goal);
  if (!latest) return null;
  const lead = reviewedWords(monthWords(latest.at.slice(0, 7)), latest.caseIds.length, earlier.length);
  return { lead, review: sideBySide(goal, latest, who) };
}

/** The same as lines of text: a checkpoint and what the two wrote on it. What they wrote in words of their own stays on its page. */
export const agreementLines = (agreement: Agreement | null): string[] =>
  agreement
    ? [
        agreement.lead,
        ...agreement.review.lines.map(({ look, words }) => `${look.replace(/[.:;]?$/, '.')} ${words}`),
        ...(agreement.review.typedAgain ? [agreement.review.typedAgain] : []),
      ]
    : [];

/** A full review as data: per checkpoint how each of the two saw it, `null` where it was left open. */
export type AgreementData = {
  month: string;
  stretches: number;
  checkpoints: readonly { look: string; surgeon: MentorAnchor | null; mentor: MentorAnchor | null }[];
};

/** Every full review of a goal as data, the latest first. */
export const agreementData = (goal: Pick<Goal, 'checkpoints' | 'mentorReviews'>): AgreementData[] =>
  fullReviews(goal).map((each) => ({
    month: each.at.slice(0, 7),
    stretches: each.caseIds.length,
    checkpoints: goal.checkpoints.map(({ id, look }) => ({
      look,
      surgeon: anchorIn(each.learner, id),
      mentor: anchorIn(each.mentor, id),
    })),
  }));
